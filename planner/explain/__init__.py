"""Why a batch is when it is and who has it; how a late one came about; what scarce things bring."""
