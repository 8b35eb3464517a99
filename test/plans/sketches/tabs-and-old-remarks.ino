// wants D3: 1 kHz
void setup() {
	pinMode(3, OUTPUT);
	Serial.begin(9600);
	// 980 Hz phase correct
	TCCR2A = (1 << COM2B1) | (1 << WGM20);   // phase correct
	TCCR2B = (1 << CS21) | (1 << CS20);
	OCR2A = 7; digitalWrite(4, HIGH);
	OCR2B = 64; // a quarter
}
void loop() {
	delay(10);
}
