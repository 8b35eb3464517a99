/* Declared by nobody: C takes it for a function that returns int. */
int offset_of_lamp(void) { return 6; }
