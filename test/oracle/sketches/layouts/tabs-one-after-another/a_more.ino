int added = 1;
