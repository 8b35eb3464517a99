void setup() { pinMode(A0, OUTPUT); }
void loop() { for (int i = 0; i < 256; i++) { analogWrite(A0, i); delay(5); } }
//=                                           ^^^^^^^^^^^^^^^^^^ finding pin-without-timer "No timer drives A0: analogWrite only switches it, low below 128 and high from 128 on"
//= fix "Write what it does: digitalWrite"
