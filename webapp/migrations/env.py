"""Runs migrations on the connection that webapp.store.migrate hands over."""

from alembic import context

from webapp.store.tables import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
    transactional_ddl=False,  # the caller's transaction holds everything
)
context.run_migrations()
