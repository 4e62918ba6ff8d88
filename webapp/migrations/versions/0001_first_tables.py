"""First tables"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "server_lock",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("generation", sa.Integer(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_server_lock_one_row")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_server_lock")),
    )
    op.execute("INSERT INTO server_lock (id, generation) VALUES (1, 0)")
    op.create_table(
        "team",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_team")),
    )
    op.create_table(
        "board",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("team_id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("formation", sa.String(), nullable=False),
        sa.Column("court", sa.String(), nullable=False),
        sa.Column("level", sa.Double(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["team_id"], ["team.id"], name=op.f("fk_board_team_id_team")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_board")),
    )
    with op.batch_alter_table("board", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_board_team_id"), ["team_id"], unique=False)

    op.create_table(
        "join_code",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("board_id", sa.String(), nullable=False),
        sa.Column("code_hash", sa.String(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.Column("expires", sa.Integer(), nullable=False),
        sa.Column("uses", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_join_code_board_id_board")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_join_code")),
    )
    with op.batch_alter_table("join_code", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_join_code_board_id"), ["board_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_join_code_code_hash"), ["code_hash"], unique=False)

    op.create_table(
        "node",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("board_id", sa.String(), nullable=False),
        sa.Column("parent_id", sa.Integer(), nullable=True),
        sa.Column("depth", sa.Integer(), nullable=False),
        sa.Column("actions", sa.String(), nullable=False),
        sa.Column("formation", sa.String(), nullable=True),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_node_board_id_board")),
        sa.ForeignKeyConstraint(["parent_id"], ["node.id"], name=op.f("fk_node_parent_id_node")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_node")),
    )
    with op.batch_alter_table("node", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_node_board_id"), ["board_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_node_parent_id"), ["parent_id"], unique=False)

    op.create_table(
        "link",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("board_id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("token_hash", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("code_id", sa.String(), nullable=True),
        sa.Column("automatic", sa.Boolean(), nullable=False),
        sa.Column("uses", sa.Integer(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.Column("revoked", sa.Integer(), nullable=True),
        sa.CheckConstraint("kind IN ('view', 'coach')", name=op.f("ck_link_kind")),
        sa.CheckConstraint("role IN ('head_coach', 'assistant', 'viewer')", name=op.f("ck_link_role")),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_link_board_id_board")),
        sa.ForeignKeyConstraint(["code_id"], ["join_code.id"], name=op.f("fk_link_code_id_join_code")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_link")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_link_token_hash")),
    )
    with op.batch_alter_table("link", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_link_board_id"), ["board_id"], unique=False)

    op.create_table(
        "place",
        sa.Column("board_id", sa.String(), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("root_id", sa.Integer(), nullable=False),
        sa.Column("cursor_id", sa.Integer(), nullable=False),
        sa.Column("tip_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_place_board_id_board")),
        sa.ForeignKeyConstraint(["cursor_id"], ["node.id"], name=op.f("fk_place_cursor_id_node")),
        sa.ForeignKeyConstraint(["root_id"], ["node.id"], name=op.f("fk_place_root_id_node")),
        sa.ForeignKeyConstraint(["tip_id"], ["node.id"], name=op.f("fk_place_tip_id_node")),
        sa.PrimaryKeyConstraint("board_id", name=op.f("pk_place")),
    )
    op.create_table(
        "key",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("team_id", sa.String(), nullable=False),
        sa.Column("board_id", sa.String(), nullable=True),
        sa.Column("link_id", sa.String(), nullable=True),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("secret_hash", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.Column("seen", sa.Integer(), nullable=False),
        sa.Column("revoked", sa.Integer(), nullable=True),
        sa.CheckConstraint("role IN ('head_coach', 'assistant', 'viewer')", name=op.f("ck_key_role")),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_key_board_id_board")),
        sa.ForeignKeyConstraint(["link_id"], ["link.id"], name=op.f("fk_key_link_id_link")),
        sa.ForeignKeyConstraint(["team_id"], ["team.id"], name=op.f("fk_key_team_id_team")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_key")),
    )
    with op.batch_alter_table("key", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_key_link_id"), ["link_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_key_team_id"), ["team_id"], unique=False)

    op.create_table(
        "change",
        sa.Column("board_id", sa.String(), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("message_id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("node_id", sa.Integer(), nullable=False),
        sa.Column("key_id", sa.String(), nullable=True),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_change_board_id_board")),
        sa.ForeignKeyConstraint(["key_id"], ["key.id"], name=op.f("fk_change_key_id_key")),
        sa.ForeignKeyConstraint(["node_id"], ["node.id"], name=op.f("fk_change_node_id_node")),
        sa.PrimaryKeyConstraint("board_id", "seq", name=op.f("pk_change")),
        sa.UniqueConstraint("board_id", "message_id", name=op.f("uq_change_board_id")),
    )
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.create_index("ix_change_node_id", ["node_id"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.drop_index("ix_change_node_id")

    op.drop_table("change")
    with op.batch_alter_table("key", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_key_team_id"))
        batch_op.drop_index(batch_op.f("ix_key_link_id"))

    op.drop_table("key")
    op.drop_table("place")
    with op.batch_alter_table("link", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_link_board_id"))

    op.drop_table("link")
    with op.batch_alter_table("node", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_node_parent_id"))
        batch_op.drop_index(batch_op.f("ix_node_board_id"))

    op.drop_table("node")
    with op.batch_alter_table("join_code", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_join_code_code_hash"))
        batch_op.drop_index(batch_op.f("ix_join_code_board_id"))

    op.drop_table("join_code")
    with op.batch_alter_table("board", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_board_team_id"))

    op.drop_table("board")
    op.drop_table("team")
    op.drop_table("server_lock")
