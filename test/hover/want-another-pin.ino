// wants D3: 490 Hz +-1 %
//=          ^^^ hover "D3: met" "D9 would do better: "
void setup() {}

void loop() { analogWrite(3, 60); }
