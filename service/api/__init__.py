"""HTTP: thin routes over the use cases. They neither query nor commit."""
