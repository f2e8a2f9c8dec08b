// Starting the platform: opens the window or the canvas and serves the app until it ends.
#pragma once

namespace tillerline::platform {

int run();

}  // namespace tillerline::platform
