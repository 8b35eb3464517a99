void wait(unsigned int n) { while (n--) __asm__ __volatile__("nop"); }
void setup() { pinMode(9, OUTPUT); }
void loop() {
  analogWrite(9, 60);
  wait(30000);
  analogWrite(9, 160);
  wait(30000);
}
