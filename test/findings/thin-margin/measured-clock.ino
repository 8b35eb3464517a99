// for pulsewright: clock 16 MHz +-50 ppm
// wants D9: 500 Hz within 488..512 Hz
void setup() {}
void loop() { analogWrite(9, 60); }
