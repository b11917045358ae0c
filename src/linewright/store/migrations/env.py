"""Runs the steps on the connection that the program gives."""

from alembic import context

from linewright.store.schema import metadata

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=metadata, transaction_per_migration=False)
context.run_migrations()
