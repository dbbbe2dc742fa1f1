#pragma once

#include "viz/window_data.hpp"
#include "viz/window_view.hpp"

#include <functional>
#include <string>

namespace thinspot::viz {

/// Gets a PNG file's bytes; returns what to say about where they went.
using SavePicture = std::function<std::string(const std::string& png)>;

/// Opens the window, and comes back when it is closed.
/// @pre require_display() did not throw
void show_window(const WindowData& data, const WindowStart& start,
                 const SavePicture& save);

/// What it would show at first, as a PNG file's bytes, without a window.
/// @pre likewise
/// @throws NoResultError where nothing could be drawn.
std::string window_picture(const WindowData& data, const WindowStart& start);

}  // namespace thinspot::viz
