"""One file a page; pages bind the study to plots and controls."""
