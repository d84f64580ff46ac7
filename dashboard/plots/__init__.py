"""One file a plot: functions from results to drawings."""
