"""Ways in for one more device: codes that are read out, and recovery sheets"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "admission",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("team_id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("board_id", sa.String(), nullable=True),
        sa.Column("secret_hash", sa.String(), nullable=False),
        sa.Column("by_id", sa.String(), nullable=False),
        sa.Column("made", sa.Integer(), nullable=False),
        sa.Column("expires", sa.Integer(), nullable=True),
        sa.Column("used", sa.Integer(), nullable=True),
        sa.Column("key_id", sa.String(), nullable=True),
        sa.Column("revoked", sa.Integer(), nullable=True),
        sa.CheckConstraint("kind IN ('code', 'sheet')", name=op.f("ck_admission_kind")),
        sa.CheckConstraint("role IN ('head_coach', 'assistant')", name=op.f("ck_admission_role")),
        sa.ForeignKeyConstraint(["team_id"], ["team.id"], name=op.f("fk_admission_team_id_team")),
        sa.ForeignKeyConstraint(["board_id"], ["board.id"], name=op.f("fk_admission_board_id_board")),
        sa.ForeignKeyConstraint(["by_id"], ["key.id"], name=op.f("fk_admission_by_id_key")),
        sa.ForeignKeyConstraint(["key_id"], ["key.id"], name=op.f("fk_admission_key_id_key")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_admission")),
        sa.UniqueConstraint("secret_hash", name=op.f("uq_admission_secret_hash")),
    )
    with op.batch_alter_table("admission", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_admission_team_id"), ["team_id"], unique=False)


def downgrade() -> None:
    op.drop_table("admission")
