"""Ink: what is drawn by hand over the court, one row for each stroke"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "ink",
        sa.Column("node_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("chain_id", sa.String(), nullable=False),
        sa.Column("tool", sa.Integer(), nullable=False),
        sa.Column("colour", sa.Integer(), nullable=False),
        sa.Column("points", sa.String(), nullable=False),
        sa.Column("gone", sa.Boolean(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["chain_id"], ["chain.id"], name=op.f("fk_ink_chain_id_chain")),
        sa.ForeignKeyConstraint(["node_id"], ["node.id"], name=op.f("fk_ink_node_id_node")),
        sa.PrimaryKeyConstraint("node_id", "id", name=op.f("pk_ink")),
    )
    with op.batch_alter_table("ink", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_ink_chain_id"), ["chain_id"], unique=False)


def downgrade() -> None:
    op.drop_table("ink")
