// SPDX-License-Identifier: MIT
#include "screen/text_watch.h"

#include "bench/catalogue.h"
#include "screen/art/lettering.h"
#include "screen/art/palette.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

namespace loom::test {
namespace {

using screen::Rect;

struct Written {
    const ImDrawList* list;
    std::string text;
    int first, end;
    Rect line, clip; // where it was put, and what of the screen was drawn on then
    Rect letters{};  // what is seen of it
};

std::vector<Written>& written() {
    static std::vector<Written> all;
    return all;
}

// What was judged at its place already.
std::set<std::string>& judged() {
    static std::set<std::string> all;
    return all;
}

std::string keyOf(const Written& text) {
    std::ostringstream key;
    key << text.text << '|' << ImGui::GetIO().DisplaySize.x << '|' << text.line.min.x << '|'
        << text.line.min.y << '|' << text.clip.min.y << '|' << text.clip.max.y;
    return key.str();
}

void note(const art::PutText& put) {
    if (put.text.empty()) return;
    const ImVec2 low = put.list->GetClipRectMin(), high = put.list->GetClipRectMax();
    written().push_back({put.list,
                         std::string(put.text),
                         put.firstIndex,
                         put.list->IdxBuffer.Size,
                         {put.at, {put.at.x + put.size.x, put.at.y + put.size.y}},
                         {low, high}});
}

// A filled triangle that hides what lies under it.
struct Ground {
    int index;
    std::array<ImVec2, 3> at;
    std::array<ImU32, 3> colour;
    Rect clip, box;
};

float cross(ImVec2 a, ImVec2 b, ImVec2 c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool contains(const Ground& ground, ImVec2 p) {
    if (!ground.box.contains(p) || !ground.clip.contains(p)) return false;
    const float a = cross(ground.at[0], ground.at[1], p), b = cross(ground.at[1], ground.at[2], p),
                c = cross(ground.at[2], ground.at[0], p);
    return (a >= 0 && b >= 0 && c >= 0) || (a <= 0 && b <= 0 && c <= 0);
}

bool sameColour(ImU32 a, ImU32 b) {
    for (int shift = 0; shift < 24; shift += 8)
        if (std::abs(static_cast<int>((a >> shift) & 255u) -
                     static_cast<int>((b >> shift) & 255u)) > 10)
            return false;
    return true;
}

Rect boxOf(const std::array<ImVec2, 3>& at) {
    Rect box{at[0], at[0]};
    for (const ImVec2& p : at) {
        box.min = {std::min(box.min.x, p.x), std::min(box.min.y, p.y)};
        box.max = {std::max(box.max.x, p.x), std::max(box.max.y, p.y)};
    }
    return box;
}

class Frame {
public:
    explicit Frame(const ImDrawList& of) : list(of) {
        const ImVec2 white = ImGui::GetIO().Fonts->TexUvWhitePixel;
        const ImTextureID typeface = ImGui::GetIO().Fonts->TexID;
        for (const ImDrawCmd& cmd : list.CmdBuffer)
            for (unsigned i = 0; i + 2 < cmd.ElemCount; i += 3) {
                Ground ground{static_cast<int>(cmd.IdxOffset + i),
                              {},
                              {},
                              {{cmd.ClipRect.x, cmd.ClipRect.y}, {cmd.ClipRect.z, cmd.ClipRect.w}},
                              {}};
                bool filled = cmd.GetTexID() == typeface;
                for (unsigned k = 0; k < 3 && filled; ++k) {
                    const ImDrawVert& v = list.VtxBuffer[static_cast<int>(
                        cmd.VtxOffset + list.IdxBuffer[static_cast<int>(cmd.IdxOffset + i + k)])];
                    filled = v.uv.x == white.x && v.uv.y == white.y && v.col >> 24 == 255u;
                    ground.at[k] = v.pos;
                    ground.colour[k] = v.col;
                }
                ground.box = boxOf(ground.at);
                if (filled && ground.box.width() > 0.0f) grounds.push_back(ground);
            }
    }

    // The colour of what is topmost there of what was drawn between two places of the list; 0: nothing.
    // Of a shaded fill that of a corner: along a line of letters it is the same.
    ImU32 groundAt(ImVec2 p, int from, int to) const {
        auto at = std::lower_bound(
            grounds.begin(), grounds.end(), to, [](const Ground& ground, int index) {
                return ground.index < index;
            });
        while (at != grounds.begin()) {
            --at;
            if (at->index < from) return 0;
            if (contains(*at, p)) return at->colour[0];
        }
        return 0;
    }

    // What is seen of the letters, turned ones too; empty: nothing.
    Rect letters(const Written& text) const {
        Rect box{{1e9f, 1e9f}, {-1e9f, -1e9f}};
        for (const ImDrawCmd& cmd : list.CmdBuffer) {
            const int begin = static_cast<int>(cmd.IdxOffset),
                      end = begin + static_cast<int>(cmd.ElemCount);
            if (end <= text.first || begin >= text.end) continue;
            for (int i = std::max(begin, text.first); i < std::min(end, text.end); ++i) {
                const ImVec2 p =
                    list.VtxBuffer[static_cast<int>(cmd.VtxOffset + list.IdxBuffer[i])].pos;
                box.min = {std::min(box.min.x, p.x), std::min(box.min.y, p.y)};
                box.max = {std::max(box.max.x, p.x), std::max(box.max.y, p.y)};
            }
        }
        box.min = {std::max(box.min.x, text.clip.min.x), std::max(box.min.y, text.clip.min.y)};
        box.max = {std::min(box.max.x, text.clip.max.x), std::min(box.max.y, text.clip.max.y)};
        return box;
    }

private:
    const ImDrawList& list;
    std::vector<Ground> grounds;
};

bool isEmpty(const Rect& r) {
    return r.width() <= 0.5f || r.height() <= 0.5f;
}

bool endsIn(const std::string& text, const std::string& end) {
    return text.size() >= end.size() &&
           text.compare(text.size() - end.size(), end.size(), end) == 0;
}

bool within(const Rect& inner, const Rect& outer) {
    return inner.min.x >= outer.min.x - 4 && inner.max.x <= outer.max.x + 4 &&
           inner.min.y >= outer.min.y - 4 && inner.max.y <= outer.max.y + 4;
}

// An item under the letters whose label has the text that "…" stands at the end of.
bool isToldWhole(const Stage& stage, const std::string& text, const Rect& letters) {
    std::string start = text.substr(0, text.size() - std::string("…").size());
    while (!start.empty() && start.back() == 'o') // by which the word is lengthened
        start.pop_back();
    for (const screen::Item& item : stage.ui.items.all())
        if (item.rect.contains(letters.centre()) && item.label.find(start) != std::string::npos)
            return true;
    return false;
}

struct Judge {
    const Stage& stage;
    const std::set<std::string>& names;
    const Frame& frame;
    Rect window;
    std::vector<std::string> faults{};

    void add(const char* what, const std::string& text, const std::string& more = {}) {
        faults.push_back(std::string(what) + ": \"" + text + "\"" + more);
    }

    // "off", "24 Ah sealed": on a part's body and not on a slip of paper over it.
    bool isPrintedOnPart(const Written& text) const {
        const Rect& r = text.letters;
        if (isEmpty(r) || sameColour(frame.groundAt(r.centre(), 0, text.first), art::tone::kPaper))
            return false;
        for (const screen::Item& item : stage.ui.items.all())
            if (item.name.rfind("part/", 0) == 0 && within(r, item.rect)) return true;
        return false;
    }

    // Names and legends of the board and of the plan's drawing, the same in every language.
    bool isOnBoard(const Written& text) const {
        const Rect& clip = text.clip;
        return text.text.find('[') == std::string::npos &&
               text.text.find("…") == std::string::npos &&
               ((within(window, clip) && within(text.letters, stage.view.layout.board)) ||
                within(clip, stage.view.layout.board) || within(clip, stage.rectOf("paper/plan")));
    }

    void words(const Written& text) {
        const std::string plain = plainWord(text.text, names);
        if (!plain.empty() && !isPrintedOnPart(text)) add("plain", text.text, " has " + plain);
        const bool shortened = endsIn(text.text, "…");
        const auto opened = std::count(text.text.begin(), text.text.end(), '[');
        const auto closed = std::count(text.text.begin(), text.text.end(), ']');
        if (opened != closed && !shortened) add("broken", text.text);
        const Rect letters = text.letters;
        if (shortened && !isEmpty(letters) && !isToldWhole(stage, text.text, letters))
            add("lost", text.text);
    }

    // Columns scroll up and down; the tray and the plan's drawing move sideways too.
    void edges(const Written& text) {
        const Rect& letters = text.letters;
        if (isOnBoard(text)) return;
        const bool turned = !isEmpty(letters) && letters.height() > text.line.height() + 2;
        const Rect& at = turned ? letters : text.line;
        const Rect& clip = text.clip;
        if (turned || within(window, clip)) {
            if (!within(
                    at,
                    {{window.min.x + 3, window.min.y + 3}, {window.max.x - 3, window.max.y - 3}}))
                add("off", text.text);
            return;
        }
        const bool sideways =
            within(clip, stage.view.layout.tray) || within(clip, stage.rectOf("paper/plan"));
        const Rect& bench = stage.view.layout.board;
        const bool board = within(clip, bench) && within(bench, clip);
        if (!sideways && (at.min.x < clip.min.x - 1 || at.max.x > clip.max.x + 1))
            add("clipped", text.text, " sideways");
        const float trim = 0.2f * at.height(); // of a line nothing stands in
        if (board && (at.min.y + trim < clip.min.y || at.max.y - trim > clip.max.y))
            add("clipped", text.text, " by the board's edge");
    }

    void box(const Written& text) {
        const Rect r = text.letters;
        if (isEmpty(r) || isOnBoard(text)) return;
        std::set<ImU32> seen;
        ImU32 first = 0;
        const bool scrolled =
            text.line.min.x < text.clip.min.x || text.line.max.x > text.clip.max.x;
        for (const float share : {0.02f, 0.25f, 0.5f, 0.75f, 0.98f}) {
            if (scrolled && (share < 0.1f || share > 0.9f))
                continue; // under the corner of the tray
            const bool upright = r.height() > 2 * r.width() && text.text.size() > 3;
            const ImVec2 p = upright ? ImVec2(r.centre().x, r.min.y + share * r.height())
                                     : ImVec2(r.min.x + share * r.width(), r.centre().y);
            const ImU32 ground = frame.groundAt(p, 0, text.first);
            if (first == 0) first = ground;
            if (!sameColour(first, ground))
                return add("out",
                           text.text,
                           " at " + std::to_string(static_cast<int>(p.x)) + ", " +
                               std::to_string(static_cast<int>(p.y)));
        }
    }

    // Lines of one paragraph, put one right after the other, stand in one box.
    void paragraph(const Written& above, const Written& below) {
        const Rect a = above.letters, b = below.letters;
        if (above.end != below.first || isEmpty(a) || isEmpty(b)) return;
        if (isOnBoard(above) || isOnBoard(below)) return;
        const float pitch = below.line.min.y - above.line.min.y;
        if (above.line.min.x != below.line.min.x || pitch <= 0 ||
            pitch > 1.2f * above.line.height())
            return;
        if (!sameColour(frame.groundAt(a.centre(), 0, above.first),
                        frame.groundAt(b.centre(), 0, below.first)))
            add("out", below.text, " under its box");
    }

    void apart(const Written& under, const Written& over) {
        const Rect a = under.letters, b = over.letters;
        if (isEmpty(a) || isEmpty(b) || (isOnBoard(under) && isOnBoard(over))) return;
        const Rect both{{std::max(a.min.x, b.min.x), std::max(a.min.y, b.min.y)},
                        {std::min(a.max.x, b.max.x), std::min(a.max.y, b.max.y)}};
        if (both.width() < 1.5f || both.height() < 3.0f) return;
        if (frame.groundAt(both.centre(), under.end, over.first) == 0)
            add("over", under.text, " and \"" + over.text + "\"");
    }
};

} // namespace

TextWatch::TextWatch() {
    art::whenTextIsPut = note;
}

TextWatch::~TextWatch() {
    art::whenTextIsPut = nullptr;
    written().clear();
    judged().clear();
}

void TextWatch::clear() {
    written().clear();
}

std::size_t TextWatch::count() const {
    return written().size();
}

std::vector<std::string> TextWatch::faults(const Stage& stage,
                                           const std::set<std::string>& names) const {
    std::vector<Written>& all = written();
    if (all.empty()) return {"nothing is written"};
    std::vector<bool> isNew;
    for (const Written& text : all)
        isNew.push_back(judged().insert(keyOf(text)).second);
    if (std::none_of(isNew.begin(), isNew.end(), [](bool each) { return each; })) return {};
    const Frame frame(*all.front().list);
    for (Written& text : all)
        text.letters = frame.letters(text);
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    Judge judge{stage, names, frame, {{0, 0}, size}};
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!isNew[i]) continue;
        judge.words(all[i]);
        judge.edges(all[i]);
        judge.box(all[i]);
        if (i > 0) judge.paragraph(all[i - 1], all[i]);
        for (std::size_t k = 0; k < i; ++k)
            judge.apart(all[k], all[i]);
    }
    for (const screen::Item& item : stage.ui.items.all()) {
        const std::string plain = plainWord(item.label, names);
        if (!plain.empty()) judge.add("plain", item.label, " (spoken) has " + plain);
    }
    return judge.faults;
}

std::string plainWord(const std::string& text, const std::set<std::string>& names) {
    if (text.find_first_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") ==
        std::string::npos)
        return {};
    static const std::set<std::string> units{
        "V",  "mV", "kV", "A", "mA", "W",   "mW",  "kW",      "Ω",     "mΩ", "kΩ", "MΩ",
        "°C", "s",  "ms", "m", "mm", "mm²", "min", "rev/min", "rad/s", "N",  "Nm", "h",  "Ah"};
    std::string rest;
    bool inside = false;
    for (const char c : text) {
        if (c == '[') inside = true;
        rest += inside ? ' ' : c;
        if (c == ']') inside = false;
    }
    for (const char* sign : {"·", "…", "−", "–", "“", "”", "’", "±"})
        for (std::size_t at; (at = rest.find(sign)) != std::string::npos;)
            rest.replace(at, std::string(sign).size(), " ");
    const std::string shortened = "…";
    if (endsIn(text, shortened)) // its last word may be half a unit
        rest.erase(std::min(rest.size(), rest.find_last_not_of(' ') + 1)),
            rest.erase(rest.find_last_of(' ') == std::string::npos ? 0 : rest.find_last_of(' '));
    std::istringstream words(rest);
    for (std::string word; words >> word;) {
        const auto isSign = [](char c) {
            return std::string(".,:;()?!\"").find(c) != std::string::npos;
        };
        while (!word.empty() && isSign(word.back()))
            word.pop_back();
        while (!word.empty() && isSign(word.front()))
            word.erase(word.begin());
        const bool letters = std::any_of(word.begin(), word.end(), [](char c) {
            return std::isalpha(static_cast<unsigned char>(c));
        });
        const std::string ref = word.substr(0, word.find('/')); // "X1/4": a way of a block
        if (letters && !units.count(word) && !names.count(word) && !names.count(ref)) return word;
    }
    return {};
}

void addNames(const bench::Bench& bench, std::set<std::string>& names) {
    for (const bench::Part& part : bench.parts)
        names.insert(part.ref);
    for (const bench::PartSlot& slot : bench.kit.parts)
        names.insert(slot.ref);
    for (const bench::Cable& cable : bench.cables)
        names.insert(cable.label);
    for (const bench::CableSlot& slot : bench.kit.readyMade)
        names.insert(slot.label);
}

std::set<std::string> catalogueNames() {
    std::set<std::string> names;
    for (const bench::PartKind kind : bench::allKinds())
        for (const bench::TerminalSpec& terminal : bench::spec(kind).terminals)
            names.insert(terminal.legend);
    return names;
}

} // namespace loom::test
