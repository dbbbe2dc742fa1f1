#pragma once

namespace thinspot::viz {

/// That there is a display on which a window can be drawn. To be asked before
/// VTK opens one, as it ends the program where it cannot.
/// @throws NoResultError saying what is missing and what helps.
void require_display();

}  // namespace thinspot::viz
