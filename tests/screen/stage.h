// SPDX-License-Identifier: MIT
// The whole screen without a window: the built-in course in a session, drawRoom() into draw lists,
// pointer and keys as a person uses them, a picture on request. Intents are applied as the host does.
#pragma once

#include "screen/room/room.h"
#include "screen/software_raster.h"

#include <memory>
#include <string>
#include <vector>

namespace loom::test {

class Stage {
public:
    Stage(int width, int height, float larger = 1.0f);
    ~Stage();

    // One turn: draws, applies what was asked for, lets 1/60 s pass.
    void frame();
    void frames(int count);
    void run(double seconds); // simulated time only

    void moveTo(ImVec2 at);
    void press();
    void release();
    void click(const std::string& item); // its middle
    void clickAt(ImVec2 at);
    void drag(ImVec2 from, ImVec2 to);
    void key(ImGuiKey key);
    void wheel(float turned);

    bool has(const std::string& item) const;
    screen::Rect rectOf(const std::string& item) const; // an empty one when there is none
    std::string labelOf(const std::string& item) const;

    void resize(int width, int height); // of the same unit: its fonts stay
    void takeUp(const attempt::Record& record);
    void takeCourse(std::vector<lesson::Exercise> course); // in place of the built-in one
    void begin(const std::string& exercise);
    void open(const bench::Bench& bench); // as from a file

    bool watch(const attempt::Quantity& quantity) { return sitting->watch(quantity); }

    void unwatchAll();
    bool ask(const attempt::Command& command); // whether it was done
    bench::PartId lay(const std::string& ref, double x_m, double y_m);
    bench::TerminalRef terminal(const std::string& ref, const std::string& word) const;
    void wire(const std::string& from, const std::string& to, double area_m2, bench::Sleeve sleeve);

    Bitmap picture();
    // Writes the picture where LOOM_SHOTS says, as NAME.ppm; does nothing without it.
    void shoot(const std::string& name);

    const lesson::Session& session() const { return *sitting; }

    screen::View view;
    screen::RoomUi ui;
    std::string lastRefusal;
    bool saved = false, opened = false;  // asked for
    std::vector<screen::SaveText> texts; // files asked for
    double clock_s = 0.0;

private:
    void apply(const screen::Intents& intents);

    int width, height;
    float larger;
    Textures textures;
    std::unique_ptr<lesson::Session> sitting;
    std::unique_ptr<art::PictureStore> pictures;
};

// What lies on the board now.
inline const bench::Bench& benchOf(const Stage& stage) {
    return stage.session().attempt().bench();
}

} // namespace loom::test
