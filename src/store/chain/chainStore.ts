/** What is asked of chains and reference recordings, and changed of them, each in one transaction. */
import type {
  AlarmList,
  Chain,
  ChainChange,
  ChainCharts,
  ChainHistory,
  ChainList,
  NewReference,
  ReferenceChange,
  ReferenceList,
} from '../../core/job/chains/chain.ts';
import { type Change, found, type Held } from '../answers.ts';
import type { ChainRow } from '../tables.ts';
import { type Db, type Origin, reading, type Tx, writing } from '../transaction.ts';
import { type ChainsQuery, chainRow, changeChain, listChains, readChain, setJobChain } from './chainList.ts';
import { readingsOf } from './chainReadings.ts';
import { readAlarms, readCharts } from './readCharts.ts';
import { addReference, changeReference, listReferences, removeReference } from './references.ts';

export interface ChainsToRead {
  list(query: ChainsQuery): Promise<ChainList>;
  /** @param named its id or its name */
  chain(named: string): Promise<Held<Chain>>;
  /** @param record key of a record file, or `none`; left out: that of the newest reading */
  charts(named: string, record?: string): Promise<Held<ChainCharts>>;
  /** newest first @param before as `next` of the page before told it */
  history(named: string, page: { readonly before?: string; readonly limit: number }): Promise<Held<ChainHistory>>;
  /** what left its limits. @param since ISO time: of what became known from then on */
  alarms(since: string): Promise<AlarmList>;
  /** @param today 2027-03-01 */
  references(today: string): Promise<ReferenceList>;
}

export interface ChainStore extends ChainsToRead {
  change(change: ChainChange): Promise<Chain>;
  /** the recordings of a job are readings of a chain. @param chain null: of none any more */
  setJob(job: string, chain: string | null): Promise<Held<null>>;
  addReference(wanted: NewReference): Promise<void>;
  changeReference(fingerprint: string, change: ReferenceChange): Promise<Change<NewReference, NewReference | null>>;
  removeReference(fingerprint: string): Promise<Held<null>>;
}

const CURSOR = /^(\d{4}-\d{2}-\d{2}T[\d:.]{8,12}Z) ([A-Za-z0-9_ -]{1,300})$/;

async function historyOf(
  tx: Tx,
  row: ChainRow,
  { before, limit }: { before?: string; limit: number },
): Promise<ChainHistory> {
  const [, at, id] = CURSOR.exec(before ?? '') ?? [];
  const after = at === undefined ? {} : { after: { at, id } };
  const { readings, next } = await readingsOf(tx, row, { order: 'desc', limit, ...after });
  const page = { chain: { id: row.id, name: row.name }, readings: [...readings] };
  return next === null ? page : { ...page, next: `${next.at} ${next.id}` };
}

export function chainStoreOver(db: Db, origin: Origin): ChainStore {
  const ofChain = <T>(named: string, work: (tx: Tx, row: ChainRow) => Promise<T>): Promise<Held<T>> =>
    reading(db, async (tx) => {
      const row = await chainRow(tx, named);
      return row.outcome === 'found' ? found(await work(tx, row.value)) : row;
    });
  return {
    list: (query) => reading(db, (tx) => listChains(tx, query)),
    chain: (named) => ofChain(named, readChain),
    charts: (named, record) => ofChain(named, (tx, row) => readCharts(tx, row, record)),
    history: (named, page) => ofChain(named, (tx, row) => historyOf(tx, row, page)),
    alarms: (since) => reading(db, (tx) => readAlarms(tx, since)),
    references: (today) => reading(db, (tx) => listReferences(tx, today)),
    change: ({ why = '', ...change }) => writing(db, (tx) => changeChain(tx, { ...change, why }, origin)),
    setJob: (job, chain) => writing(db, (tx) => setJobChain(tx, job, chain)),
    addReference: (wanted) => writing(db, (tx) => addReference(tx, wanted, origin)),
    changeReference: (fingerprint, change) => writing(db, (tx) => changeReference(tx, fingerprint, change, origin)),
    removeReference: (fingerprint) => writing(db, (tx) => removeReference(tx, fingerprint)),
  };
}
