// The want names a pin that no line of the sketch touches.
// wants D12: 5 Hz
//=^^^^^^^^^^^^^^^ finding off-frequency "D12 gives no pulse: nothing in the sketch drives it"
// wants D3: analog-rc
//=^^^^^^^^^^^^^^^^^^^ finding off-frequency "outside the wanted 1000 Hz or more"
void setup() {}

void loop() { analogWrite(3, 100); }
