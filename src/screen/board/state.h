// SPDX-License-Identifier: MIT
// What the board remembers from frame to frame: the camera, what is in the hand, the tool in use, what
// is chosen, the last refusal. Only the board and the room change it; every other screen sees it const
// and asks by a Wish (wish.h).
#pragma once

#include "screen/board/label_art.h"
#include "screen/kit/view.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace loom::screen {

// What a press or a key has picked up. It hangs on the pointer until let go.
struct FromTray {
    std::string ref;
}; // a part

struct ReadyMade {
    std::string label;
}; // a cable from the tray

struct FuseInHand {
    double rating_A = 0.0;
}; // a blade or strip

struct KeyInHand {}; // the isolator's key

struct PartInHand {
    bench::PartId part;
    double dx_m = 0.0, dy_m = 0.0;
};

struct EndInHand {
    bench::CableId cable;
    int end = 0;
};

struct NewCable {
    bench::TerminalRef from;
}; // cut from the chosen reel

struct CableInHand {
    bench::CableId cable;
    bench::Point at_m; // where it was taken
};                     // by its middle, to lay it elsewhere

struct ProbeInHand {
    int which = 0;
}; // 0 red, 1 black: of the meter

using Hand = std::variant<std::monostate,
                          FromTray,
                          ReadyMade,
                          FuseInHand,
                          KeyInHand,
                          PartInHand,
                          EndInHand,
                          CableInHand,
                          NewCable,
                          ProbeInHand>;

// Which tool of the wall is in use. With one that makes ends, a tap on an end or a terminal opens the
// close-up; everything else stays as with the hand.
enum class Tool { BareHand, Strip, Driver, Spanner, Meter, Marker };

// What the card shows.
using Chosen = std::variant<std::monostate, bench::PartId, bench::CableId, bench::TerminalRef>;

struct Camera {
    double zoom = 1.0; // 1 shows the whole board
    double centreX_m = 0.0, centreY_m = 0.0;
    bool placed = false; // false: fit the board at the next frame
};

// What a press began on, before it is known to be a tap or a drag.
struct Press {
    enum class On { Nothing, Board, Part, Control, Terminal, End, Cable } on = On::Nothing;
    bench::PartId part;
    bench::TerminalRef terminal;
    bench::CableId cable;
    int end = 0;        // the nearer end of the cable
    double along = 0.5; // on a cable: where, 0 at its first end .. 1
    ImVec2 at_px{0, 0};
    ImVec2 local_m{0, 0}; // on a part: from its centre, before turning
};

// What the yard is told while something is in the hand: the bench as shown, and what is held.
struct Carried {
    bench::Bench shown;
    yard::InHand inHand;
};

// What is worked out from the bench once and kept until it changes.
struct SceneCache {
    std::uint64_t key = 0;
    std::vector<art::Route> routes; // one a cable, in the bench's order
    std::vector<art::LabelSpot> labels;
    std::vector<bench::TerminalRef> takers; // terminals that take what is in the hand
    std::uint64_t takersKey = 0;
    art::BoardView board;           // of the frame drawn last
    std::optional<Carried> carried; // likewise; nothing while the hand is empty
};

struct BoardUi {
    Camera camera;
    Hand hand;
    bool carried = false; // held by a pressed pointer (drag); false: picked up by a tap or key
    bool byTap = false;   // how it was picked up: the other end of a cable follows into the hand
    Tool tool = Tool::BareHand;
    Chosen chosen;
    double chosenAlong = 0.5; // a chosen cable: where it was tapped, 0 at its first end .. 1
    std::size_t reel = 0;     // index into the kit's reels
    std::optional<bench::PartId> heldButton; // a push button held down
    bool heldByKey = false;
    Press press;
    std::string notice;   // a refusal in words, until the next act
    ImVec2 hand_px{0, 0}; // where the hand is: the pointer, or the item the keys are on
    SceneCache scene;
};

// Takes something into the hand. dragged: the pointer is still down.
void pickUp(BoardUi& ui, Hand hand, bool dragged);
void letGo(BoardUi& ui);
bool holdsSomething(const BoardUi& ui);

} // namespace loom::screen
