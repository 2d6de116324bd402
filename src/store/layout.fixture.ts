/** For tests: the layout of a new store as its released steps make it. What stands here once is never changed, more may come after it. */
export const layoutText = `
table layout_steps
  number integer primary key
  name text not null
  applied_at text not null
table settings
  name text primary key
  value text not null
table decks
  id text primary key
  name text not null
  description text not null
  created_at text not null
  plain text default '' not null
table jobs
  id text primary key
  number integer not null unique
  title text not null
  deck_id text not null references decks (id)
  customer text not null
  notes text not null
  created_at text not null
  updated_at text not null
  revision integer not null
  practice integer default 0 not null
  record_file text default '' not null
  set_aside_at text
  set_aside_why text
index jobs_by_deck on jobs (deck_id)
table stations
  job_id text not null references jobs (id)
  station text not null
  status text not null
  stale_because_json text
  data_json text not null
  revision integer not null
  updated_at text not null
  constraint stations_key primary key (job_id, station)
table captures
  id text primary key
  job_id text not null references jobs (id)
  station text not null
  heard_at text not null
  stored_at text not null
  sha256 text
  file text not null
  duration_s double precision not null
  document_json text not null
  curves_json text not null
  practice integer default 0 not null
  said_kind text
  said_epoch text
  set_aside_at text
  set_aside_why text
  method text
  record_key text
  record_name text
index captures_by_job on captures (job_id, heard_at)
index captures_by_fingerprint on captures (sha256)
table findings
  capture_id text not null references captures (id)
  place integer not null
  quantity text not null
  channel text
  value_number double precision
  value_text text
  unit text not null
  uncertainty double precision
  verdict text not null
  constraint findings_key primary key (capture_id, place)
index findings_by_quantity on findings (quantity, verdict)
table advice
  id text primary key
  job_id text not null references jobs (id)
  capture_id text not null references captures (id)
  place integer not null
  given_at text not null
  action text not null
  amount double precision
  unit text not null
  direction text
  advice_json text not null
  did text not null
  outcome_note text not null
  outcome_at text
  checked_by text references captures (id)
index advice_by_job on advice (job_id)
table advice_checks
  advice_id text not null references advice (id)
  place integer not null
  quantity text not null
  unit text not null
  before_value double precision
  predicted double precision not null
  measured double precision
  uncertainty double precision
  came text not null
  why text not null
  constraint advice_checks_key primary key (advice_id, place)
table parts
  kind text not null
  id text not null
  name text not null
  data_json text not null
  revision integer not null
  updated_at text not null
  constraint parts_key primary key (kind, id)
table fittings
  id text primary key
  job_id text not null references jobs (id)
  at text not null
  station text not null
  kind text not null
  name text not null
  was text not null
  hours double precision
index fittings_by_job on fittings (job_id, at)
table words
  word text not null
  job_id text references jobs (id)
  deck_id text references decks (id)
index words_by_word on words (word, job_id, deck_id)
index words_by_job on words (job_id, word)
index words_by_deck on words (deck_id, word)
table photographs
  id text primary key
  job_id text not null references jobs (id)
  station text not null
  at text not null
  note text not null
  width integer not null
  height integer not null
  jpeg blob not null
index photographs_by_job on photographs (job_id, at)
index decks_by_name on decks (name, id)
index decks_by_plain on decks (plain, name, id)
index jobs_by_deck_number on jobs (deck_id, number)
table batch_records
  id text primary key
  name text not null
  text text not null
  added_at text not null
table batch_files
  id text primary key
  state text not null
  tries integer default 0 not null
  token text
  worker text default '' not null
  lease_until double precision
  not_before double precision default 0 not null
  why text default '' not null
  added_at text not null
  root text not null
  path text not null
  record text not null references batch_records (id)
  chain text not null
  bytes double precision not null
  modified_ms double precision not null
  fingerprint text
  recorded_at text default '' not null
  constraint batch_files_once unique (root, path, record)
table batch_sides
  id text primary key
  state text not null
  tries integer default 0 not null
  token text
  worker text default '' not null
  lease_until double precision
  not_before double precision default 0 not null
  why text default '' not null
  added_at text not null
  fingerprint text not null
  method text not null
  record text not null references batch_records (id)
  constraint batch_sides_once unique (fingerprint, method, record)
index batch_files_by_state on batch_files (state, added_at, id)
index batch_sides_by_state on batch_sides (state, added_at, id)
index batch_files_by_fingerprint on batch_files (fingerprint, record)
table batch_results
  side_id text primary key references batch_sides (id)
  measured_at text not null
  took_ms double precision not null
  document_json text not null
index batch_results_by_time on batch_results (measured_at)
table batch_figures
  side_id text not null references batch_sides (id)
  place integer not null
  quantity text not null
  channel text
  value double precision
  words text
  uncertainty double precision
  unit text not null
  verdict text not null
  constraint batch_figures_key primary key (side_id, place)
table chains
  id text primary key
  name text not null unique
  made_at text not null
table chain_states
  id text primary key
  chain_id text not null references chains (id)
  since text not null
  parts_json text not null
  why text not null
index chain_states_by_chain on chain_states (chain_id, since)
table chain_jobs
  job_id text primary key references jobs (id)
  chain_id text not null references chains (id)
index chain_jobs_by_chain on chain_jobs (chain_id, job_id)
table reference_recordings
  fingerprint text primary key
  name text not null
  record_key text not null
  record text not null
  certificate text not null
  expires text not null
  added_at text not null
index references_by_record on reference_recordings (record_key, expires)
index batch_files_by_chain on batch_files (chain, recorded_at, id)
index stations_typed on stations (station, job_id) where data_json <> '{}'
index batch_figures_watched on batch_figures (side_id, place) where quantity in (…)
table next_checks
  deck_id text primary key references decks (id)
  job_id text not null references jobs (id)
  number integer not null
  due_date text
  due_hours double precision
  stylus_hours double precision
  expected text not null
index next_checks_by_day on next_checks (expected, number desc)
index next_checks_by_job on next_checks (job_id)
index jobs_by_beginning on jobs (created_at)
index captures_by_record on captures (record_key, heard_at, id)
`;
