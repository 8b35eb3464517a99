// wants D9: 1 kHertz
//=            ^^^^^^ finding unread-comment "column"
void setup() {}
void loop() { analogWrite(9, 60); }
