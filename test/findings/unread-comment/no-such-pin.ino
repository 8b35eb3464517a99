const byte vent = 9;
// wants vent: 490 Hz +-2 %
// wants D77: 490 Hz +-2 %
//=      ^^^ finding unread-comment "D77 is no pin of the nano"
void setup() {}
void loop() { analogWrite(vent, 60); }
