"""What-ifs, kept with what came of them.

Revision 0008.
"""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision."""
    op.create_table(
        "what_if",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("plan_id", sa.Uuid(), nullable=False),
        sa.Column("change", sa.String(length=10), nullable=False),
        sa.Column("value", sa.String(length=80), nullable=False),
        sa.Column("otherwise", sa.JSON(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("result", sa.Text(), nullable=True),
        sa.Column("error", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "state IN ('queued', 'running', 'done', 'refused', 'failed', 'cut_off')",
            name=op.f("ck_what_if_state"),
        ),
        sa.ForeignKeyConstraint(["kitchen_id"], ["kitchen.id"], name=op.f("fk_what_if_kitchen_id")),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name=op.f("fk_what_if_plan_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_what_if")),
    )
    with op.batch_alter_table("what_if") as batch:
        batch.create_index(op.f("ix_what_if_plan_id"), ["plan_id"])


def downgrade() -> None:
    """Go back to the revision before."""
    op.drop_table("what_if")
