#define LAMP_CTRL_A TCCR1A
#define LAMP_CTRL_B TCCR1B
#define LAMP_TOP ICR1
#define LAMP_LEVEL OCR1A
void setup() {
  pinMode(9, OUTPUT);
  LAMP_CTRL_A = bit(COM1A1) | bit(WGM11);
  LAMP_CTRL_B = bit(WGM13) | bit(WGM12) | bit(CS10);
  LAMP_TOP = 9999;
  LAMP_LEVEL = LAMP_TOP / 3;
}
void loop() {}
