import { beforeEach, describe, expect, it, vi } from 'vitest';
import { applyLeaves, type LeafChange } from '../core/job/leafPaths.ts';
import type { Document, Draft, Told } from './draft.ts';

const kept = new Map<string, string>();
vi.stubGlobal('addEventListener', () => undefined);
vi.stubGlobal('document', { addEventListener: () => undefined, hidden: false });
vi.stubGlobal(
  'localStorage',
  new Proxy(
    {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, value: string) => void kept.set(name, value),
      removeItem: (name: string) => void kept.delete(name),
    },
    { ownKeys: () => [...kept.keys()], getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }) },
  ),
);
const { choices, forgetAside, openDraft } = await import('./draft.ts');
const { keysAside } = await import('./draftAside.ts');
const { ServerAway, ServerSaid } = await import('./api.ts');

/** A server of one document: takes all of a request or none, as the store does. */
class Server {
  told: Told = { document: { target: '1.8' }, revision: 1 };
  fails: 'before' | 'after' | null = null;
  meanwhile: (() => void) | null = null;
  requests: (readonly LeafChange[])[] = [];

  async take(changes: readonly LeafChange[]): Promise<Told> {
    this.requests.push(changes);
    if (this.fails === 'before') throw new ServerAway('away');
    this.meanwhile?.();
    this.meanwhile = null;
    const applied = applyLeaves(this.told.document, changes);
    if (applied.outcome === 'conflict') throw new ServerSaid(409, 'conflict', this.told);
    this.told = { document: applied.document as Document, revision: this.told.revision + 1 };
    if (this.fails === 'after') throw new ServerAway('away');
    return this.told;
  }
  elsewhere(document: Document): void {
    this.told = { document: { ...this.told.document, ...document }, revision: this.told.revision + 1 };
  }
  open(): Draft {
    const { document, revision } = this.told;
    return openDraft(
      {
        key: 'test',
        send: (changes) => this.take(changes),
        current: (body) => body as Told,
        label: (path) => path.join(' '),
      },
      { document, revision },
    );
  }
}

let server: Server;
let draft: Draft;
beforeEach(() => {
  kept.clear();
  choices.value = [];
  server = new Server();
  draft = server.open();
});
const type = (document: Document): void => draft.change({ ...draft.document.peek(), ...document });

describe('a draft', () => {
  it('is shown at once, sent by leaf, and saved when the server has it', async () => {
    type({ dial: '1.9' });
    expect(draft.document.peek()).toEqual({ target: '1.8', dial: '1.9' });
    expect(draft.saved.peek()).toBe(false);
    expect(await draft.save()).toBe(true);
    expect(server.requests).toEqual([[{ path: ['dial'], is: '1.9' }]]);
    expect(draft.saved.peek()).toBe(true);
    expect(kept.size).toBe(0);
  });

  it('keeps what is typed while a request is under way, also where it goes back to what it was', async () => {
    type({ target: '1.9' });
    server.meanwhile = () => type({ target: '1.8' });
    expect(await draft.save()).toBe(true);
    expect(server.told.document).toEqual({ target: '1.8' });
    expect(server.requests).toHaveLength(2);
  });

  it('an answer that got lost makes no conflict with oneself', async () => {
    type({ target: '1.9' });
    server.fails = 'after';
    await expect(draft.save()).rejects.toThrow('away');
    expect(server.told.document).toEqual({ target: '1.9' });
    server.fails = null;
    type({ target: '1.95' });
    expect(await draft.save()).toBe(true);
    expect(choices.value).toEqual([]);
    expect(server.told.document).toEqual({ target: '1.95' });
  });

  it('outlives a reload, with the server away before it and other fields changed meanwhile', async () => {
    type({ target: '1.9', notes: 'long' });
    server.fails = 'before';
    await expect(draft.save()).rejects.toThrow('away');
    expect(keysAside('te')).toEqual(['test']);
    server.fails = null;
    server.elsewhere({ dial: '2' });
    draft = server.open();
    expect(draft.document.peek()).toEqual({ target: '1.9', notes: 'long', dial: '2' });
    expect(await draft.save()).toBe(true);
    expect(server.told.document).toEqual({ target: '1.9', notes: 'long', dial: '2' });
    expect(kept.size).toBe(0);
  });

  it('is forgotten with what it was typed for, and nothing else is', async () => {
    type({ target: '1.9' });
    kept.set('platterside-draft/head/other', '[]');
    kept.set('platterside-draft/head/gone', '[]');
    forgetAside((key) => key === 'test' || key === 'head/gone');
    expect(keysAside('')).toEqual(['head/other']);
    expect(draft.document.peek()).toEqual(server.told.document);
    kept.delete('platterside-draft/head/other');
  });

  it('two values for one leaf wait for a person, the others go on; either choice is kept', async () => {
    type({ target: '2.0', dial: '1.9' });
    server.elsewhere({ target: '1.7' });
    expect(await draft.save()).toBe(false);
    expect(server.told.document).toEqual({ target: '1.7', dial: '1.9' });
    expect(choices.value).toMatchObject([{ label: 'target', yours: '2.0', theirs: '1.7' }]);
    choices.value[0].takeOther();
    expect(draft.document.peek()).toEqual({ target: '1.7', dial: '1.9' });
    expect(choices.value).toEqual([]);
    type({ target: '2.1' });
    server.elsewhere({ target: '1.6' });
    draft.take(server.told);
    expect(choices.value).toMatchObject([{ yours: '2.1', theirs: '1.6' }]);
    // a conflict is one after a reload too
    draft = server.open();
    expect(choices.value).toMatchObject([{ yours: '2.1', theirs: '1.6' }]);
    choices.value[0].keepMine();
    expect(await draft.save()).toBe(true);
    expect(server.told.document).toMatchObject({ target: '2.1' });
  });

  it('rows put at the end of one list in two windows are both kept', async () => {
    server.elsewhere({ sets: ['a'] });
    draft.take(server.told);
    type({ sets: ['a', 'mine'] });
    server.elsewhere({ sets: ['a', 'theirs'] });
    expect(await draft.save()).toBe(true);
    expect(server.told.document).toMatchObject({ sets: ['a', 'theirs', 'mine'] });
    expect(draft.document.peek()).toEqual(server.told.document);
  });
});
