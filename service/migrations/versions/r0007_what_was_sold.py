"""The sales history: what was entered when by whom, and its counts.

Revision 0007.
"""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision."""
    op.create_table(
        "sales_entry",
        sa.Column("created_by", sa.String(length=60), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("way", sa.String(length=20), nullable=False),
        sa.Column("source", sa.String(length=120), nullable=False),
        sa.Column("answers", sa.JSON(), nullable=False),
        sa.Column("puts_back", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_sales_entry_kitchen_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sales_entry")),
        sa.UniqueConstraint("kitchen_id", "number", name=op.f("uq_sales_entry_kitchen_id_number")),
    )
    op.create_table(
        "sales_line",
        sa.Column("kitchen_id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("date", sa.Date(), nullable=False),
        sa.Column("service", sa.String(length=80), nullable=False),
        sa.Column("dish", sa.String(length=80), nullable=False),
        sa.Column("count", sa.Integer(), nullable=True),
        sa.Column("before", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["kitchen_id"], ["kitchen.id"], name=op.f("fk_sales_line_kitchen_id")
        ),
        sa.PrimaryKeyConstraint(
            "kitchen_id", "number", "date", "service", "dish", name=op.f("pk_sales_line")
        ),
    )


def downgrade() -> None:
    """Go back to the revision before."""
    op.drop_table("sales_line")
    op.drop_table("sales_entry")
