"""What was kept of the trim of a yield test, by by-product.

Revision 0009.
"""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision; of tests before nobody knows what the trim was kept as."""
    with op.batch_alter_table("yield_test") as batch:
        batch.add_column(
            sa.Column(
                "trim",
                sa.JSON(),
                nullable=False,
                server_default='{"kept": {}, "whole": false}',
            )
        )


def downgrade() -> None:
    """Go back to the revision before."""
    with op.batch_alter_table("yield_test") as batch:
        batch.drop_column("trim")
