"""Releases of plans to the floor, and what cooks say of them.

Revision 0002.
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision."""
    op.create_table(
        "release",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("date", sa.Date(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("plan_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(["kitchen_id"], ["kitchen.id"], name=op.f("fk_release_kitchen_id")),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name=op.f("fk_release_plan_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_release")),
        sa.UniqueConstraint(
            "kitchen_id", "date", "number", name=op.f("uq_release_kitchen_id_date_number")
        ),
    )
    op.create_table(
        "tick",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("release_id", sa.Uuid(), nullable=False),
        sa.Column("key", sa.String(length=60), nullable=False),
        sa.Column("act", sa.String(length=20), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("device_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("device", sa.String(length=60), nullable=False),
        sa.Column("cook", sa.String(length=60), nullable=False),
        sa.Column("tasks", sa.JSON(), nullable=False),
        sa.Column("reason", sa.String(length=200), nullable=False),
        sa.Column("weight", sa.JSON(), nullable=True),
        sa.Column("takes_back", sa.String(length=60), nullable=False),
        sa.CheckConstraint(
            "act IN ('begun', 'done', 'problem', 'weighed', 'heard', 'taken back')",
            name=op.f("ck_tick_act"),
        ),
        sa.ForeignKeyConstraint(["kitchen_id"], ["kitchen.id"], name=op.f("fk_tick_kitchen_id")),
        sa.ForeignKeyConstraint(["release_id"], ["release.id"], name=op.f("fk_tick_release_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tick")),
        sa.UniqueConstraint("release_id", "key", name=op.f("uq_tick_release_id_key")),
    )


def downgrade() -> None:
    """Go back to the revision before."""
    op.drop_table("tick")
    op.drop_table("release")
