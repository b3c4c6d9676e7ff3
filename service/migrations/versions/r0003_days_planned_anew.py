"""Days planned anew from where the floor stands.

Revision 0003.
"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision."""
    with op.batch_alter_table("plan") as batch:
        batch.add_column(sa.Column("after_release", sa.Integer(), nullable=True))
        batch.add_column(sa.Column("news", sa.JSON(), nullable=True))
    with op.batch_alter_table("plan_result") as batch:
        batch.add_column(sa.Column("course", sa.Text(), nullable=True))
        batch.add_column(sa.Column("told", sa.JSON(), nullable=True))
    with op.batch_alter_table("release") as batch:
        batch.add_column(sa.Column("follows", sa.Integer(), nullable=True))


def downgrade() -> None:
    """Go back to the revision before."""
    with op.batch_alter_table("release") as batch:
        batch.drop_column("follows")
    with op.batch_alter_table("plan_result") as batch:
        batch.drop_column("told")
        batch.drop_column("course")
    with op.batch_alter_table("plan") as batch:
        batch.drop_column("news")
        batch.drop_column("after_release")
