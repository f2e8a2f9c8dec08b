#include "app.hpp"
#include "platform_run.hpp"

int main() { return tillerline::platform::run(); }
