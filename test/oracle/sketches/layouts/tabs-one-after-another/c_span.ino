#define LATER 77
void setSpan(const Span &span) {
  ICR1 = span.top;
  OCR1A = span.high + added;
}
static Span widened(Span span, uint8_t by) {
  span.high += by * LATER;
  return span;
}
