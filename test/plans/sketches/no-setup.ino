// wants D6: 8 kHz
void loop() { analogWrite(6, 128); }
