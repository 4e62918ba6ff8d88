"""Codes of links: a join code belongs to the viewing link it is given away with, and ends with it"""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("join_code", schema=None) as batch_op:
        batch_op.add_column(sa.Column("link_id", sa.String(), nullable=True))
        batch_op.create_index(batch_op.f("ix_join_code_link_id"), ["link_id"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("join_code", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_join_code_link_id"))
        batch_op.drop_column("link_id")
