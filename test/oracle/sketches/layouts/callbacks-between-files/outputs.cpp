#include "outputs.h"
namespace {
Output *head = nullptr;
class Plain : public Output {
public:
  Plain() : Output(6) {}
  void apply(uint8_t level) override;
};
void Plain::apply(uint8_t level) { analogWrite(pin, level); }
}
Output &plain() {
  static Plain instance;
  return instance;
}
void attach(Output *output) {
  output->next = head;
  head = output;
}
void level(uint8_t level) {
  for (Output *at = head; at; at = at->next) at->apply(level);
}
void runAll(const Action *actions, uint8_t which) { actions[which](3); }
