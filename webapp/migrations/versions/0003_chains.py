"""Chains get names and a place in the playbook: one row for each root of play"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

#: A root's chain: its main line ends where the board stands if it stands in it, else at the node added last.
CHAINS = """
WITH RECURSIVE tree (node_id, root_id) AS (
    SELECT id, id FROM node WHERE parent_id IS NULL
    UNION ALL SELECT node.id, tree.root_id FROM node JOIN tree ON node.parent_id = tree.node_id
)
INSERT INTO chain (id, team_id, board_id, root_id, line_id, name, note, tags, pinned, kept, made, used)
SELECT 'c' || root.id || '-' || lower(hex(randomblob(8))), board.team_id, root.board_id, root.id,
    coalesce(
        (SELECT tip_id FROM place WHERE place.root_id = root.id),
        (SELECT max(node_id) FROM tree WHERE tree.root_id = root.id)
    ),
    '', '', '[]', 0, 0, root.made, root.made
FROM node AS root JOIN board ON board.id = root.board_id WHERE root.parent_id IS NULL
"""


def upgrade() -> None:
    op.create_table(
        "chain",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("team_id", sa.String(), nullable=False),
        sa.Column("board_id", sa.String(), nullable=False),
        sa.Column("root_id", sa.Integer(), nullable=False),
        sa.Column("line_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("tags", sa.String(), nullable=False),
        sa.Column("pinned", sa.Boolean(), nullable=False),
        sa.Column("kept", sa.Boolean(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.Column("used", sa.Integer(), nullable=False),
        sa.Column("deleted", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["team_id"], ["team.id"], name=op.f("fk_chain_team_id_team")),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_chain_board_id_board")),
        sa.ForeignKeyConstraint(["root_id"], ["node.id"], name=op.f("fk_chain_root_id_node")),
        sa.ForeignKeyConstraint(["line_id"], ["node.id"], name=op.f("fk_chain_line_id_node")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chain")),
        sa.UniqueConstraint("root_id", name=op.f("uq_chain_root_id")),
    )
    with op.batch_alter_table("chain", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_chain_team_id"), ["team_id"], unique=False)
    op.create_table(
        "done",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("team_id", sa.String(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["team_id"], ["team.id"], name=op.f("fk_done_team_id_team")),
        sa.PrimaryKeyConstraint("id", "team_id", name=op.f("pk_done")),
    )
    op.execute(CHAINS)


def downgrade() -> None:
    op.drop_table("done")
    op.drop_table("chain")
