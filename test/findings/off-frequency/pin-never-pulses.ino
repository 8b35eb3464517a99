// wants D9: 1 kHz +-2 %
//=^^^^^^^^^^^^^^^^^^^^^ finding off-frequency "D9 gives no pulse"
void setup() { pinMode(9, OUTPUT); }
void loop() { digitalWrite(9, HIGH); }
