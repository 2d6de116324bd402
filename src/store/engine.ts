/** What differs between the databases that a store may lie in, apart from opening them. */
import {
  ColumnDefinitionNode,
  type DatabaseConnection,
  type Dialect,
  type Kysely,
  type KyselyPlugin,
  OperationNodeTransformer,
  PostgresAdapter,
  RawNode,
} from 'kysely';
import { Unkeepable } from './storeError.ts';

/** The rest asks nothing of the database but this: its statements run on both. */
export const isPostgres = <T>(db: Kysely<T>): boolean => db.getExecutor().adapter instanceof PostgresAdapter;

const types: Readonly<Record<string, string>> = {
  // text is ordered by its bytes, as SQLite does, whatever the language of the server
  text: 'text collate "C"',
  blob: 'bytea',
};

class PostgresTypes extends OperationNodeTransformer {
  protected override transformColumnDefinition(node: ColumnDefinitionNode): ColumnDefinitionNode {
    const { dataType } = node;
    const name =
      dataType.kind === 'DataTypeNode' && 'dataType' in dataType ? types[String(dataType.dataType)] : undefined;
    const seen = super.transformColumnDefinition(node);
    return name === undefined
      ? seen
      : ColumnDefinitionNode.cloneWith({ ...seen, dataType: RawNode.createWithSql(name) }, {});
  }
}

const transformer = new PostgresTypes();

/** The layout's steps as they are, with the types that PostgreSQL has for them. */
export const postgresTypes: KyselyPlugin = {
  transformQuery: ({ node }) => transformer.transformNode(node),
  transformResult: async ({ result }) => result,
};

/** @throws Unkeepable for text that one of the two databases cannot hold */
function refuseUnkeepable(parameters: readonly unknown[]): void {
  for (const value of parameters) if (typeof value === 'string' && value.includes('\0')) throw new Unkeepable();
}

/** The same bounds on what may be kept, whichever database it is: a store can be copied from one to the other. */
export function bounded(dialect: Dialect): Dialect {
  const known = new WeakSet<DatabaseConnection>();
  return {
    createAdapter: () => dialect.createAdapter(),
    createIntrospector: (db) => dialect.createIntrospector(db),
    createQueryCompiler: () => dialect.createQueryCompiler(),
    createDriver() {
      const driver = dialect.createDriver();
      const acquire = driver.acquireConnection.bind(driver);
      driver.acquireConnection = async () => {
        const connection = await acquire();
        if (known.has(connection)) return connection;
        known.add(connection);
        const run = connection.executeQuery.bind(connection);
        connection.executeQuery = async (query) => {
          refuseUnkeepable(query.parameters);
          return run(query);
        };
        return connection;
      };
      return driver;
    },
  };
}
