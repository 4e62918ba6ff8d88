"""The team's own: squad, lineups, rule sets, formations, calls; and what of it a board has been set to"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.schema import SchemaItem

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    for table in (
        _owned(
            "player",
            sa.Column("number", sa.String(), nullable=False),
            sa.Column("name", sa.String(), nullable=False),
            sa.Column("positions", sa.String(), nullable=False),
            sa.Column("hand", sa.String(), nullable=False),
            sa.Column("may", sa.String(), nullable=True),
            sa.Column("lane", sa.String(), nullable=False),
        ),
        _owned(
            "lineup",
            sa.Column("name", sa.String(), nullable=False),
            sa.Column("places", sa.String(), nullable=False),
        ),
        _owned(
            "design",
            sa.Column("kind", sa.String(), nullable=False),
            sa.CheckConstraint("kind IN ('rules', 'formation')", name=op.f("ck_design_kind")),
        ),
    ):
        with op.batch_alter_table(table, schema=None) as batch_op:
            batch_op.create_index(batch_op.f(f"ix_{table}_team_id"), ["team_id"], unique=False)

    op.create_table(
        "design_version",
        sa.Column("design_id", sa.String(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("data", sa.String(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["design_id"], ["design.id"], name=op.f("fk_design_version_design_id_design")
        ),
        sa.PrimaryKeyConstraint("design_id", "version", name=op.f("pk_design_version")),
    )
    # Columns are added as they are, not by copying the table: other tables point to these.
    op.add_column("team", sa.Column("calls", sa.String(), nullable=False, server_default="{}"))
    op.add_column("board", sa.Column("rules", sa.String(), nullable=False, server_default="pass_and_cut"))
    op.add_column("board", sa.Column("stage", sa.Integer(), nullable=True))
    op.add_column("board", sa.Column("places", sa.String(), nullable=False, server_default="{}"))
    op.add_column("node", sa.Column("rules", sa.String(), nullable=True))
    op.execute("UPDATE node SET rules = 'pass_and_cut' WHERE parent_id IS NULL")


def _owned(name: str, *columns: SchemaItem) -> str:
    """Make a table of things that a team owns and can take out and put back."""
    op.create_table(
        name,
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("team_id", sa.String(), nullable=False),
        *columns,
        sa.Column("made", sa.Integer(), nullable=False),
        sa.Column("deleted", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["team_id"], ["team.id"], name=op.f(f"fk_{name}_team_id_team")),
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
    )
    return name


def downgrade() -> None:
    # The first form knows one set of rules, no recovery and no scripted step: a board that is in the middle
    # of anything else goes to the start of a new chain. Its tree is kept.
    op.execute("""
        CREATE TEMPORARY TABLE moved AS
        SELECT id FROM board
        WHERE rules <> 'pass_and_cut' OR substr(formation, 1, 2) = 'f_'
        OR id IN (SELECT board_id FROM node WHERE actions LIKE 'recover:%' OR actions LIKE 'script:%')
    """)
    op.execute("""
        UPDATE board SET formation = 'five_out'
        WHERE id IN (SELECT id FROM moved) AND substr(formation, 1, 2) = 'f_'
    """)
    op.execute("""
        INSERT INTO node (board_id, parent_id, depth, actions, formation, made)
        SELECT id, NULL, 0, '', formation, made FROM board WHERE id IN (SELECT id FROM moved)
    """)
    newest = "(SELECT max(node.id) FROM node WHERE node.board_id = place.board_id)"
    op.execute(f"""
        UPDATE place SET root_id = {newest}, cursor_id = {newest}, tip_id = {newest}
        WHERE board_id IN (SELECT id FROM moved)
    """)
    op.execute("DROP TABLE moved")
    for table, column in (
        ("node", "rules"),
        ("board", "places"),
        ("board", "stage"),
        ("board", "rules"),
        ("team", "calls"),
    ):
        op.drop_column(table, column)
    op.drop_table("design_version")
    for table in ("design", "lineup", "player"):
        with op.batch_alter_table(table, schema=None) as batch_op:
            batch_op.drop_index(batch_op.f(f"ix_{table}_team_id"))
        op.drop_table(table)
