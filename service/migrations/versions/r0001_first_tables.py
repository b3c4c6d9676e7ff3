"""Kitchens, versions of their files, planning runs and what they made.

Revision 0001, the first.
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision."""
    op.create_table(
        "kitchen",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("slug", sa.String(length=80), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_kitchen")),
        sa.UniqueConstraint("slug", name=op.f("uq_kitchen_slug")),
    )
    op.create_table(
        "kitchen_version",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_kitchen_version_kitchen_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_kitchen_version")),
        sa.UniqueConstraint(
            "kitchen_id", "number", name=op.f("uq_kitchen_version_kitchen_id_number")
        ),
    )
    op.create_table(
        "plan",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_version_id", sa.Uuid(), nullable=False),
        sa.Column("date", sa.Date(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("choices", sa.JSON(), nullable=False),
        sa.Column("error", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("started_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("finished_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("beat_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint(
            "state IN ('queued', 'running', 'done', 'failed')", name=op.f("ck_plan_state")
        ),
        sa.ForeignKeyConstraint(["kitchen_id"], ["kitchen.id"], name=op.f("fk_plan_kitchen_id")),
        sa.ForeignKeyConstraint(
            ["kitchen_version_id"], ["kitchen_version.id"], name=op.f("fk_plan_kitchen_version_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan")),
    )
    with op.batch_alter_table("plan", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_plan_date"), ["date"], unique=False)
        batch_op.create_index(batch_op.f("ix_plan_kitchen_id"), ["kitchen_id"], unique=False)
        batch_op.create_index(
            batch_op.f("ix_plan_kitchen_version_id"), ["kitchen_version_id"], unique=False
        )
        batch_op.create_index(batch_op.f("ix_plan_state"), ["state"], unique=False)

    op.create_table(
        "plan_progress",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("plan_id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("seconds", sa.Float(), nullable=False),
        sa.Column("origin", sa.String(length=200), nullable=False),
        sa.Column("short", sa.Integer(), nullable=False),
        sa.Column("tardiness", sa.Integer(), nullable=False),
        sa.Column("labor", sa.Integer(), nullable=False),
        sa.Column("freshness", sa.Integer(), nullable=False),
        sa.Column("finish", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_plan_progress_kitchen_id")
        ),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name=op.f("fk_plan_progress_plan_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan_progress")),
        sa.UniqueConstraint("plan_id", "number", name=op.f("uq_plan_progress_plan_id_number")),
    )
    op.create_table(
        "plan_result",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("plan_id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("sheet", sa.Text(), nullable=False),
        sa.Column("traces", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_plan_result_kitchen_id")
        ),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name=op.f("fk_plan_result_plan_id")),
        sa.PrimaryKeyConstraint("plan_id", name=op.f("pk_plan_result")),
    )


def downgrade() -> None:
    """Go back to the revision before."""
    op.drop_table("plan_result")
    op.drop_table("plan_progress")
    with op.batch_alter_table("plan", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_plan_state"))
        batch_op.drop_index(batch_op.f("ix_plan_kitchen_version_id"))
        batch_op.drop_index(batch_op.f("ix_plan_kitchen_id"))
        batch_op.drop_index(batch_op.f("ix_plan_date"))

    op.drop_table("plan")
    op.drop_table("kitchen_version")
    op.drop_table("kitchen")
