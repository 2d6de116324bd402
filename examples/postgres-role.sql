-- A role for the benches of one workshop, with least rights: it owns one schema of this database and nothing else. Run once, by
-- whoever may make roles, in the database that the store is to lie in:
--
--   psql -d workshop -v role=bench -f postgres-role.sql
--   psql -d workshop -c '\password bench'
--
-- The second line asks for the password without showing it. No password is written here or on a command line.
\set ON_ERROR_STOP on
begin;
create role :"role" login nosuperuser nocreatedb nocreaterole noinherit noreplication nobypassrls connection limit 100;
-- a schema of the role's own name is where PostgreSQL looks first
create schema :"role" authorization :"role";
select format('grant connect on database %I to %I', current_database(), :'role') \gexec
-- servers before version 15 let everybody make tables in the common schema
revoke create on schema public from public;
commit;
