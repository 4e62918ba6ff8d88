"""Language: what a team is spoken to in; empty for what each browser asks for"""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("team", schema=None) as batch_op:
        batch_op.add_column(sa.Column("language", sa.String(), server_default="", nullable=False))


def downgrade() -> None:
    with op.batch_alter_table("team", schema=None) as batch_op:
        batch_op.drop_column("language")
