"""Yield tests, answers to questions about them, and decisions on yields in use.

Revision 0004.
"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision."""
    op.create_table(
        "yield_answer",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("test_key", sa.String(length=100), nullable=False),
        sa.Column("answer", sa.String(length=20), nullable=False),
        sa.Column("reason", sa.String(length=200), nullable=False),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_yield_answer_kitchen_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_yield_answer")),
    )
    with op.batch_alter_table("yield_answer", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_yield_answer_kitchen_id"), ["kitchen_id"], unique=False
        )

    op.create_table(
        "yield_decision",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("of", sa.String(length=190), nullable=False),
        sa.Column("way", sa.String(length=20), nullable=False),
        sa.Column("before", sa.JSON(), nullable=False),
        sa.Column("after", sa.JSON(), nullable=False),
        sa.Column("reason", sa.String(length=200), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("puts_back", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_yield_decision_kitchen_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_yield_decision")),
        sa.UniqueConstraint(
            "kitchen_id", "number", name=op.f("uq_yield_decision_kitchen_id_number")
        ),
    )
    op.create_table(
        "yield_gathered",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("date", sa.Date(), nullable=False),
        sa.Column("release", sa.Integer(), nullable=False),
        sa.Column("ticks", sa.Integer(), nullable=False),
        sa.Column("over", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_yield_gathered_kitchen_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_yield_gathered")),
        sa.UniqueConstraint("kitchen_id", "date", name=op.f("uq_yield_gathered_kitchen_id_date")),
    )
    op.create_table(
        "yield_test",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("key", sa.String(length=100), nullable=False),
        sa.Column("number", sa.Integer(), nullable=True),
        sa.Column("date", sa.Date(), nullable=False),
        sa.Column("of", sa.String(length=190), nullable=False),
        sa.Column("supplier", sa.String(length=80), nullable=False),
        sa.Column("cook", sa.String(length=80), nullable=False),
        sa.Column("grams_in", sa.Float(), nullable=False),
        sa.Column("grams_out", sa.Float(), nullable=False),
        sa.Column("asked", sa.JSON(), nullable=False),
        sa.Column("record", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_yield_test_kitchen_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_yield_test")),
        sa.UniqueConstraint("kitchen_id", "key", name=op.f("uq_yield_test_kitchen_id_key")),
        sa.UniqueConstraint("kitchen_id", "number", name=op.f("uq_yield_test_kitchen_id_number")),
    )
    with op.batch_alter_table("yield_test", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_yield_test_of"), ["of"], unique=False)


def downgrade() -> None:
    """Go back to the revision before."""
    with op.batch_alter_table("yield_test", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_yield_test_of"))

    op.drop_table("yield_test")
    op.drop_table("yield_gathered")
    op.drop_table("yield_decision")
    with op.batch_alter_table("yield_answer", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_yield_answer_kitchen_id"))

    op.drop_table("yield_answer")
