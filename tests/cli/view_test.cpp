// `thinspot view`: what it says without a display, of folders that are none,
// and what its window shows and does, on a display of its own.

#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkPNGReader.h>

#include <array>
#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;

namespace {

/// One line on standard error.
std::string complaint(const Run& run, int status) {
  CAPTURE(run.err);
  CHECK(run.status == status);
  CHECK(run.out.empty());
  CHECK(lines_of(run.err).size() == 1);
  return run.err;
}

Run without_display(const fs::path& folder, const std::string& arguments) {
  return shell(folder, "unset DISPLAY; exec \"$THINSPOT\" view " + arguments);
}

/// A case of two steps between which the part is flipped.
std::string two_steps() {
  return edited("[[step]]\nduration = \"40 min\"\n",
                "[[step]]\nduration = \"20 min\"\n\n"
                "[[step]]\nduration = \"20 min\"\nflip = true\n");
}

/// Solves it into the folder "case-out".
void solve(const Scratch& scratch, const std::string& text) {
  put(scratch / "case.toml", text);
  const Run run =
      run_thinspot(scratch.path(), {"solve", "case.toml", "--quiet"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
}

/// False, saying so, where there is nothing to make a display with. ctest then
/// counts the test as skipped.
bool have_display() {
  const Scratch scratch;
  if (shell(scratch.path(), "command -v xvfb-run xauth Xvfb").status == 0)
    return true;
  WARN("skipped: xvfb is not installed");
  return false;
}

/// Runs a line of bash with a display of its own. Where a test may take so much
/// memory and no more, the drawing library reserves more than that.
Run on_display(const fs::path& folder, const std::string& line) {
  put(folder / "line.sh", kWithoutLeaks + line);  // those of what draws
  return shell(folder,
               "ulimit -Sv unlimited; unset DISPLAY; exec xvfb-run -a "
               "-s '-screen 0 1280x1024x24' bash line.sh");
}

struct Picture {
  int width = 0, height = 0;
  std::set<std::array<unsigned char, 3>> colours;
  std::string bytes;   ///< of the file
  std::string pixels;  ///< from the upper left on

  std::string rows(int from, int to) const {
    const auto row = static_cast<std::size_t>(3 * width);
    return pixels.substr(row * static_cast<std::size_t>(from),
                         row * static_cast<std::size_t>(to - from));
  }
};

Picture picture_in(const fs::path& file) {
  CAPTURE(file.string());
  Picture picture;
  picture.bytes = content(file);
  vtkNew<vtkPNGReader> reader;
  REQUIRE(reader->CanReadFile(file.c_str()) != 0);
  reader->SetFileName(file.c_str());
  reader->Update();
  vtkImageData* image = reader->GetOutput();
  int size[3];
  image->GetDimensions(size);
  picture.width = size[0];
  picture.height = size[1];
  REQUIRE(image->GetNumberOfScalarComponents() == 3);
  for (int y = size[1] - 1; y >= 0; --y)
    for (int x = 0; x < size[0]; ++x) {
      const auto* p =
          static_cast<const unsigned char*>(image->GetScalarPointer(x, y, 0));
      picture.colours.insert({p[0], p[1], p[2]});
      picture.pixels.append(reinterpret_cast<const char*>(p), 3);
    }
  return picture;
}

}  // namespace

TEST_CASE("without a display there is one line", "[view]") {
  const Scratch scratch;
  solve(scratch, sound_case());
  for (const std::string what :
       {"case-out", "case.toml", "case-out --save a.png"})
    CHECK_THAT(complaint(without_display(scratch.path(), what), 4),
               StartsWith("no result: there is no display"));
  CHECK_THAT(complaint(shell(scratch.path(),
                             "DISPLAY=:4711 exec \"$THINSPOT\" view case-out"),
                       4),
             Contains(":4711"));
  CHECK_FALSE(fs::exists(scratch / "a.png"));
}

TEST_CASE("what cannot be shown is told in one line", "[view]") {
  const Scratch scratch;
  solve(scratch, sound_case());
  const auto said = [&](const std::string& arguments) {
    CAPTURE(arguments);
    return complaint(without_display(scratch.path(), arguments), 2);
  };
  CHECK_THAT(said(""), Contains("thinspot view CASE-out"));
  CHECK_THAT(said("nowhere"), StartsWith("nowhere: ") && Contains("no such"));
  CHECK_THAT(said("nowhere.toml"), StartsWith("nowhere.toml: "));
  fs::create_directory(scratch / "empty");
  CHECK_THAT(said("empty"), Contains("summary.json"));
  CHECK_THAT(said("case-out/surface.vtp"), Contains("thinspot view case-out"));
  CHECK_THAT(said("case-out empty"), Contains("alone"));
  CHECK_THAT(said("case-out --set a.b=1"), StartsWith("--set: "));
  CHECK_THAT(said("case-out --step 2"), Contains("from 1 to 1"));
  CHECK_THAT(said("case-out --step zero"), StartsWith("--step: "));
  CHECK_THAT(said("case-out --step 0"), StartsWith("--step: "));
  CHECK_THAT(said("case-out --field heat"), StartsWith("--field: "));
}

TEST_CASE("damaged results are told in one line", "[view]") {
  const Scratch scratch;
  solve(scratch, sound_case());
  const fs::path folder = scratch / "case-out";
  const auto said = [&] {
    return complaint(without_display(scratch.path(), "case-out"), 2);
  };
  const auto broken = [&](const std::string& name, const std::string& text) {
    const std::string sound = content(folder / name);
    put(folder / name, text);
    const std::string line = said();
    put(folder / name, sound);
    return line;
  };
  // The file, and what helps.
  const auto tells = [](const std::string& line, const std::string& name) {
    CHECK_THAT(line, StartsWith("case-out: " + name + ": ") &&
                         Contains("thinspot solve"));
  };
  tells(broken("summary.json", "{}"), "summary.json");
  tells(broken("summary.json", std::string(200'000, '[')), "summary.json");
  tells(broken("steps.pvd", "<a>"), "steps.pvd");
  tells(broken("section.vtu", std::string(1000, '\0')), "section.vtu");
  const std::string surface = content(folder / "surface.vtp");
  tells(broken("surface.vtp", surface.substr(0, surface.size() / 2)),
        "surface.vtp");
  // Text that stands for a hundred million times itself.
  std::string bomb = "<?xml version=\"1.0\"?><!DOCTYPE a [<!ENTITY e0 \"ha\">";
  for (char k = '1'; k <= '8'; ++k) {
    const std::string before = std::string("&e") + char(k - 1) + ";";
    bomb += std::string("<!ENTITY e") + k + " \"";
    for (int n = 0; n < 10; ++n) bomb += before;
    bomb += "\">";
  }
  bomb += "]><VTKFile type=\"PolyData\"><PolyData>&e8;</PolyData></VTKFile>";
  tells(broken("surface.vtp", bomb), "surface.vtp");
  fs::remove(folder / "surface.vtp");
  tells(said(), "surface.vtp");
  // Bytes changed one at a time never do worse than being refused.
  for (std::size_t at = 60; at < surface.size(); at += surface.size() / 12) {
    std::string text = surface;
    text[at] = static_cast<char>(text[at] ^ 0x15);
    put(folder / "surface.vtp", text);
    const Run run = without_display(scratch.path(), "case-out");
    CAPTURE(at, run.err);
    CHECK((run.status == 2 || run.status == 4));
    CHECK(lines_of(run.err).size() == 1);
    CHECK_THAT(run.err,
               StartsWith("case-out: surface.vtp") || Contains("no display"));
  }
}

TEST_CASE("a picture is not put in place of something else", "[view]") {
  const Scratch scratch;
  solve(scratch, sound_case());
  put(scratch / "notes.txt", "mine");
  CHECK_THAT(
      complaint(without_display(scratch.path(), "case-out --save notes.txt"),
                3),
      StartsWith("notes.txt: ") && Contains("no PNG") && Contains("--save"));
  CHECK(content(scratch / "notes.txt") == "mine");
  CHECK_THAT(
      complaint(without_display(scratch.path(), "case-out --save none/a.png"),
                3),
      Contains("no folder none"));
}

TEST_CASE("nothing that draws on a screen is loaded where none is needed",
          "[view]") {
  const Scratch scratch;
  const Run loaded =
      shell(scratch.path(), "ldd \"$THINSPOT\" | grep -c libvtkRendering");
  CHECK(loaded.out == "0\n");
  const Run by_window =
      shell(scratch.path(),
            "ldd \"$(dirname \"$THINSPOT\")/thinspot-window\" | grep -c "
            "libvtkRenderingOpenGL2");
  CHECK(by_window.out == "1\n");
}

TEST_CASE("the window's program says that it is none of its own", "[view]") {
  const Scratch scratch;
  const Run run = shell(scratch.path(),
                        "exec \"$(dirname \"$THINSPOT\")/thinspot-window\"");
  CHECK_THAT(complaint(run, 2), Contains("thinspot view"));
}

TEST_CASE("the picture of a result is saved", "[view][display]") {
  if (!have_display()) return;
  const Scratch scratch;
  solve(scratch, two_steps());
  const Run run = on_display(
      scratch.path(),
      "set -e\n"
      "\"$THINSPOT\" view case-out --save last.png\n"
      "\"$THINSPOT\" view case-out --save last.png\n"
      "\"$THINSPOT\" view case-out --save first.png --step 1\n"
      "\"$THINSPOT\" view case-out --save current.png --field current\n"
      "\"$THINSPOT\" view case.toml --save computed.png\n");
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(run.err.empty());
  CHECK(lines_of(run.out).size() == 5);
  const Picture last = picture_in(scratch / "last.png");
  CHECK(last.width == 1200);
  CHECK(last.height == 800);
  // A scale has 256 colours, and there are two.
  CHECK(last.colours.size() > 500);
  CHECK(last.bytes == picture_in(scratch / "computed.png").bytes);
  CHECK(last.bytes != picture_in(scratch / "current.png").bytes);
  // The liquid of an earlier step is not known, and not coloured.
  const Picture first = picture_in(scratch / "first.png");
  CHECK(first.bytes != last.bytes);
  CHECK(first.colours.size() < last.colours.size() * 3 / 4);
  CHECK(first.colours.size() > 250);
  for (const auto& file : fs::directory_iterator(scratch.path()))
    CHECK_FALSE(file.path().filename().string().ends_with(".tmp"));
}

TEST_CASE("keys and mouse do what the window says", "[view][display]") {
  if (!have_display()) return;
  const Scratch scratch;
  solve(scratch, two_steps());
  // What the window shows is saved after each of these, and then once more
  // from the beginning.
  const Run run = on_display(
      scratch.path(),
      "\"$THINSPOT\" view case-out & window=$!\n"
      "'" THINSPOT_PRESS_KEYS
      "' s wait:case-view-1.png Left s wait:case-view-2.png Right s "
      "wait:case-view-3.png f s wait:case-view-4.png f p s "
      "wait:case-view-5.png wheel:500,300 s wait:case-view-6.png "
      "drag:500,300,560,330 s wait:case-view-7.png a s wait:case-view-8.png "
      "drag:990,756,760,756 s wait:case-view-9.png Right p "
      "click:513,150 s wait:case-view-10.png q || kill $window\n"
      "wait $window");
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(run.err.empty());
  const auto shown = [&](int number) {
    return content(scratch / ("case-view-" + std::to_string(number) + ".png"));
  };
  CHECK(shown(1) != shown(2));
  CHECK(shown(1) == shown(3));
  CHECK(shown(1) != shown(4));
  CHECK(shown(1) != shown(5));
  CHECK(shown(5) != shown(6));
  CHECK(shown(6) != shown(7));
  CHECK(shown(1) == shown(8));
  // The slider leads to the first step, as the left arrow did.
  CHECK(shown(2) == shown(9));
}

TEST_CASE("a click tells of the point that it hits", "[view][display]") {
  if (!have_display()) return;
  const Scratch scratch;
  solve(scratch, sound_case());
  // Looked at closely the token stands in the middle: where it is hit, a mark
  // and a line of words come up, and they go with a click where nothing is.
  const Run run = on_display(
      scratch.path(),
      "\"$THINSPOT\" view case-out & window=$!\n"
      "'" THINSPOT_PRESS_KEYS
      "' p s wait:case-view-1.png click:490,400 s wait:case-view-2.png "
      "click:100,400 s wait:case-view-3.png Escape || kill $window\n"
      "wait $window");
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  const Picture before = picture_in(scratch / "case-view-1.png");
  const Picture hit = picture_in(scratch / "case-view-2.png");
  // The line of words stands 735 to 765 pixels below the upper edge.
  CHECK(before.rows(735, 765) != hit.rows(735, 765));
  CHECK(before.rows(390, 410) != hit.rows(390, 410));
  CHECK(before.rows(100, 300) == hit.rows(100, 300));
  CHECK(before.bytes == content(scratch / "case-view-3.png"));
}
