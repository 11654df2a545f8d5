"""What many jobs together ask for: the nozzle sizes to keep on the van."""
