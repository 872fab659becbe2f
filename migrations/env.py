"""Alembic's environment: the connection comes from the application."""

from alembic import context

from server.storage.models import Row

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=Row.metadata,
    render_as_batch=connection.dialect.name == "sqlite",
    compare_type=True,
)
context.run_migrations()
