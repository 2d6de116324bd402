/** One of the product's own pages, or the list of them. */
import { useEffect, useState } from 'preact/hooks';
import { say, statement } from '../../core/words/statement.ts';
import { docsPath } from '../route.ts';
import { titleOf } from './markdown.ts';
import { PageText } from './PageText.tsx';
import { loadPage, pageNames } from './pages.ts';

interface Loaded {
  readonly name: string;
  readonly source: string | null;
}

export default function DocsPage({ page, section }: { page: string; section: string }) {
  const [loaded, setLoaded] = useState<Loaded | null>(null);
  useEffect(() => {
    let current = true;
    void loadPage(page).then((source) => {
      if (current) setLoaded({ name: page, source });
    });
    return () => {
      current = false;
    };
  }, [page]);
  useEffect(() => {
    if (loaded?.name === page && section !== '') document.getElementById(section)?.scrollIntoView();
  }, [loaded, page, section]);
  if (page === 'index') return <PageList />;
  if (loaded?.name !== page) return <p class="soft">Opening the page…</p>;
  if (loaded.source === null) {
    return (
      <>
        <p>{say(statement('no-such-page'))}</p>
        <PageList />
      </>
    );
  }
  return <PageText source={loaded.source} name={page} />;
}

function PageList() {
  const [titles, setTitles] = useState<ReadonlyMap<string, string>>(new Map());
  useEffect(() => {
    void Promise.all(
      pageNames().map(async (name) => [name, titleOf((await loadPage(name)) ?? '') ?? name] as const),
    ).then((entries) => setTitles(new Map(entries)));
  }, []);
  const groups = new Map<string, string[]>();
  for (const name of pageNames()) {
    const folder = name.includes('/') ? name.split('/')[0] : '';
    groups.set(folder, [...(groups.get(folder) ?? []), name]);
  }
  const headings: Record<string, string> = {
    '': 'Using it',
    methods: 'Methods: formulas, sources, limits',
    decisions: 'Why it is so',
  };
  return (
    <div class="page-text">
      {[...groups].map(([folder, names]) => (
        <section key={folder}>
          <h3>{headings[folder] ?? folder}</h3>
          <ul>
            {names.map((name) => (
              <li key={name}>
                <a href={docsPath(name)}>{titles.get(name) ?? name}</a>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}
