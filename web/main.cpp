#include "platform/platform_run.hpp"
#include "screens/app.hpp"

int main() { return tillerline::platform::run(); }
