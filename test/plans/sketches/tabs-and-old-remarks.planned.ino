// wants D3: 1 kHz
void setup() {
	pinMode(3, OUTPUT);
	Serial.begin(9600);
	TCCR2B = 0;
	TCCR2A = 0;
	TCNT2 = 0;
	OCR2A = 250;
	OCR2B = 63;
	TCCR2A = (1 << COM2B1) | (1 << WGM20);
	TCCR2B = (1 << WGM22) | (1 << CS21) | (1 << CS20);  // 1 kHz on D3: phase correct, prescaler 32, TOP 250
	digitalWrite(4, HIGH);
}
void loop() {
	delay(10);
}
