"""Occasions: when a play is wanted, and where it stands among the pinned ones of that"""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("chain", schema=None) as batch_op:
        batch_op.add_column(sa.Column("occasion", sa.String(), server_default="", nullable=False))
        batch_op.add_column(sa.Column("rank", sa.Integer(), server_default="0", nullable=False))


def downgrade() -> None:
    with op.batch_alter_table("chain", schema=None) as batch_op:
        batch_op.drop_column("rank")
        batch_op.drop_column("occasion")
