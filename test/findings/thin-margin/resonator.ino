// for pulsewright: board uno
// wants D9: 500 Hz within 488..512 Hz
void setup() {}
void loop() { analogWrite(9, 60); }
//= finding thin-margin "490.196 Hz is inside 488..512 Hz" "487.745 Hz"
