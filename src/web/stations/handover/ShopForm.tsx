/** Name, address line and logo of the shop, as every report carries them; kept with the jobs on this machine. */
import { useEffect, useState } from 'preact/hooks';
import { type Letterhead, letterheadSchema, letterheadWordings, MOST_LOGO } from '../../../core/job/letterhead.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { api } from '../../api.ts';
import { FilePick } from '../../parts/FilePick.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { TextField } from '../../parts/TextField.tsx';

/** As a data address, or what is wrong with it. */
function logoOf(file: File): Promise<{ logo: string } | { wrong: string }> {
  return new Promise((resolve) => {
    const reader = new FileReader();
    reader.onerror = () => resolve({ wrong: say(statement('file-not-read', { name: file.name })) });
    reader.onload = () => {
      const logo = String(reader.result);
      const large = logo.length > MOST_LOGO;
      if (!large && letterheadSchema.safeParse({ logo }).success) resolve({ logo });
      else resolve({ wrong: say(statement('logo-expected', { name: file.name, kb: (MOST_LOGO * 3) / 4000 })) });
    };
    reader.readAsDataURL(file);
  });
}

export function ShopForm() {
  const [shop, setShop] = useState<Letterhead | null>(null);
  const [said, setSaid] = useState('');
  const away = say(statement('server-silent-unchanged'));
  useEffect(() => {
    api.letterhead().then(setShop, () => setSaid(away));
  }, []);
  if (shop === null) return said === '' ? null : <p role="status">{said}</p>;
  const change = (patch: Partial<Letterhead>): void => {
    setShop({ ...shop, ...patch });
    setSaid('');
  };
  const pick = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const read = await logoOf(file);
    if ('logo' in read) change(read);
    else setSaid(read.wrong);
  };
  const save = (): void => {
    api.setLetterhead(shop).then(
      (kept) => {
        setShop(kept);
        setSaid('Saved.');
      },
      (error: unknown) => setSaid(error instanceof Error ? error.message : away),
    );
  };
  return (
    <Fold title="Shop on the reports" answer={shop.name === '' ? 'not set' : shop.name}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <div class="fields">
          <TextField of={letterheadWordings.name} text={shop.name} onText={(name) => change({ name })} />
          <TextField of={letterheadWordings.address} text={shop.address} onText={(address) => change({ address })} />
          <FilePick
            label="Logo"
            accept=".png,.svg"
            hint="PNG or SVG, at most 150 kB"
            onFiles={([file]) => void pick(file)}
          />
        </div>
        {shop.logo !== null && <img src={shop.logo} alt="Logo as it prints" class="shop-logo" />}
        <div class="buttons">
          <button type="submit" class="button">
            Save
          </button>
          {shop.logo !== null && (
            <button type="button" class="button" onClick={() => change({ logo: null })}>
              Delete the logo
            </button>
          )}
        </div>
        <p role="status">{said}</p>
      </form>
    </Fold>
  );
}
