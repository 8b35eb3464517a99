int add(int a, int b) { return a + b; }
//= ^^^ hover "nothing"
void setup() { add(1, 2); }
//=            ^^^ hover "nothing"
void loop() {}
