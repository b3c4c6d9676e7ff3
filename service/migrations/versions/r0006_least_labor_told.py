"""The least labor that is told with each better plan.

Revision 0006.
"""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision; of plans before it is not known."""
    with op.batch_alter_table("plan_progress") as batch:
        batch.add_column(sa.Column("least_labor", sa.Integer(), nullable=False, server_default="0"))


def downgrade() -> None:
    """Go back to the revision before."""
    with op.batch_alter_table("plan_progress") as batch:
        batch.drop_column("least_labor")
