// The tabs are empty: the program's own main stands in another file, and the core is left out.
