// SPDX-License-Identifier: MIT
// What happened, in one sentence with its number, under the board; the whole list opens over it.
#include "screen/room/event_line.h"

#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/room/advice.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

using attempt::BenchEvent;

// One line in the middle, or as many as the slip has room for, the rest cut. Returns the middle of
// the first line.
float drawSentence(const Pen& pen, const Rect& room, const std::string& text) {
    const float pitch = pen.line(Face::Body);
    const auto lines = wrapped(pen.font(Face::Body), pen.size(Face::Body), room.width(), text);
    const std::size_t most =
        std::max<std::size_t>(1, static_cast<std::size_t>(room.height() / pitch));
    const std::size_t shown = std::min(lines.size(), most);
    if (shown == 0) return room.centre().y;
    const float first = room.centre().y - pitch * 0.5f * static_cast<float>(shown - 1);
    float y = first;
    for (std::size_t i = 0; i < shown; ++i, y += pitch) {
        const bool last = i + 1 == shown && shown < lines.size();
        // From where this line starts to the end of the text.
        const std::string rest =
            text.substr(static_cast<std::size_t>(lines[i].data() - text.data()));
        pen.left(Face::Body,
                 {room.min.x, y},
                 tone::kInk,
                 last ? pen.cut(Face::Body, rest, room.width()) : std::string(lines[i]));
    }
    return first;
}

enum class Sign { None, Warning, Success };

struct Line {
    std::string time, text;
    Sign sign = Sign::None;             // framed, signed, and shown whole
    const BenchEvent* unread = nullptr; // a tap says that it was read
};

// A thing's events are one: what it came to last is said, and read, for all of them.
const BenchEvent* gravestUnread(const attempt::Attempt& attempt, const Unread& unread) {
    const BenchEvent* gravest = nullptr;
    for (const std::size_t index : unread.which) {
        const BenchEvent& event = attempt.events()[index - attempt.eventsBefore()];
        if (!gravest || attempt::rowOf(event).weight >= attempt::rowOf(*gravest).weight)
            gravest = &event;
    }
    return gravest;
}

void read(const attempt::Attempt& attempt, Unread& unread, const std::string& name) {
    auto& which = unread.which;
    which.erase(std::remove_if(which.begin(),
                               which.end(),
                               [&](std::size_t index) {
                                   return attempt.events()[index - attempt.eventsBefore()].name ==
                                          name;
                               }),
                which.end());
}

// Another bench has fewer events; what was undone is no longer how things stand.
void noteUnread(const attempt::Attempt& attempt, std::size_t undone, Unread& unread) {
    const std::size_t before = attempt.eventsBefore(), count = before + attempt.events().size();
    if (count < unread.seen) unread = {};
    for (std::size_t index = std::max(unread.seen, before); index < count; ++index)
        if (!attempt::isOrdinary(attempt.events()[index - before])) unread.which.push_back(index);
    unread.seen = count;
    const std::size_t gone = before + undone;
    auto& which = unread.which;
    which.erase(which.begin(), std::lower_bound(which.begin(), which.end(), std::max(gone, before)));
}

// How a tool is used is said when it is taken, until something happens.
std::string toolJustTaken(const EventsUi& ui, const BoardUi& board, std::size_t events) {
    return ui.since.events == events ? adviceForTool(board.tool) : std::string();
}

// What the host says went well.
Sign signOf(const std::string& notice) {
    return notice == words("link/copied") ? Sign::Success : Sign::Warning;
}

Line lineOf(const View& view, const EventsUi& ui, const BoardUi& board) {
    if (!board.notice.empty()) return {"", board.notice, signOf(board.notice), nullptr};
    if (!view.savedWord.empty()) return {"", view.savedWord, Sign::Warning, nullptr};
    const attempt::Attempt& attempt = view.session->attempt();
    const std::vector<BenchEvent>& all = attempt.events();
    if (const BenchEvent* event = gravestUnread(attempt, ui.unread))
        return {timeOf(event->time_s), sentence(*event) + " " + nextAct(*event), Sign::Warning, event};
    std::string advice = adviceForHand(attempt.bench(), board);
    if (advice.empty()) advice = toolJustTaken(ui, board, all.size());
    // What was undone is no longer how things stand; the whole list keeps it.
    if (!advice.empty()) return {"", advice, Sign::None, nullptr};
    if (all.size() > ui.since.undone && !isSolved(*view.session))
        return {timeOf(all.back().time_s), sentence(all.back()), Sign::None, nullptr};
    const Advice next = adviceForBench(*view.session);
    return {"", next.text, next.success ? Sign::Success : Sign::None, nullptr};
}

void noteChanges(const View& view, LineSince& since, Tool tool) {
    const std::size_t count = view.session->attempt().events().size();
    if (count < since.undone) since.undone = 0; // another bench
    if (tool != since.tool) since.events = count;
    since.tool = tool;
}

// Where the sentence stands on the slip, and what stands beside it.
struct SlipPlaces {
    Rect slip, link, sentence;
    float timeX = 0.0f;
};

SlipPlaces placesOn(const Rect& slip, const Pen& pen, const Line& line, bool any) {
    const float linkWidth = pen.width(Face::Bold, words("events/all")) + pen.px(32.0f);
    SlipPlaces at;
    at.slip = slip;
    at.link = {{slip.max.x - linkWidth, slip.max.y - pen.px(44.0f)}, slip.max};
    at.timeX = slip.min.x + pen.px(line.sign != Sign::None ? 48.0f : 16.0f);
    const float time = line.time.empty() ? 0.0f : pen.width(Face::Bold, line.time) + pen.px(14.0f);
    const float end = any ? at.link.min.x : slip.max.x - pen.px(16.0f);
    at.sentence = {{at.timeX + time, slip.min.y + pen.px(2.0f)}, {end, slip.max.y - pen.px(2.0f)}};
    return at;
}

// A refusal says what was expected and what was found, a fault what to do: its slip grows upwards
// until all of it is to be read.
Rect slipFor(const Rect& slip, const Pen& pen, const Line& line, bool any) {
    if (line.sign == Sign::None) return slip;
    const Rect room = placesOn(slip, pen, line, any).sentence;
    const float high = pen.paragraphHeight(Face::Body, room.width(), line.text) + pen.px(4.0f);
    const float more = std::max(0.0f, high - room.height());
    return {{slip.min.x, slip.min.y - more}, slip.max};
}

void drawSlip(const View& view, Items& items, EventsUi& ui, const BoardUi& board, const Pen& pen) {
    const Line line = lineOf(view, ui, board);
    const bool any = !view.session->attempt().events().empty();
    const SlipPlaces at = placesOn(slipFor(view.layout.events, pen, line, any), pen, line, any);
    const Rect& slip = at.slip;
    pen.list->AddRectFilled(slip.min, slip.max, tone::kEventPaper, pen.px(8.0f));
    pen.list->AddRect(slip.min,
                      slip.max,
                      line.sign == Sign::Warning   ? tone::kAttention
                      : line.sign == Sign::Success ? tone::kDone
                                                   : tone::kEventLine,
                      pen.px(8.0f),
                      0,
                      line.sign == Sign::None ? 1.0f : 2.0f);
    const ImVec2 sign{slip.min.x + pen.px(26.0f), slip.centre().y};
    if (line.sign == Sign::Warning) drawWarning(pen, sign, pen.px(11.0f), tone::kAttention);
    if (line.sign == Sign::Success) drawMark(pen.list, sign, pen.px(11.0f), Mark::Done);
    const float y = drawSentence(pen, at.sentence, line.text);
    pen.left(Face::Bold, {at.timeX, y}, tone::kInkSoft, line.time);
    const Rect told{slip.min, {at.sentence.max.x, slip.max.y}};
    const std::string label = line.time.empty() ? line.text : line.time + " " + line.text;
    if (line.unread) {
        const Touch touch = items.add("events/last", label, Zone::Events, told);
        if (touch.focused) drawFocusRing(pen.list, shrunk(told, 4.0f), pen.px(6.0f));
        if (touch.clicked) read(view.session->attempt(), ui.unread, line.unread->name);
    } else {
        readable(pen, items, "events/last", label, Zone::Events, told, pen.px(8.0f));
    }
    if (!any) return;

    const std::string all = words("events/all");
    const Rect& link = at.link;
    const Touch touch = items.add("events/all", all, Zone::Events, link);
    const ImVec2 end(link.max.x - pen.px(16.0f), link.centre().y);
    pen.right(Face::Bold, end, touch.hot ? tone::kInk : tone::kLink, all);
    const float under = end.y + pen.px(10.0f);
    pen.list->AddLine(
        {end.x - pen.width(Face::Bold, all), under}, {end.x, under}, tone::kLink, 1.4f);
    if (touch.focused) drawFocusRing(pen.list, shrunk(link, 4.0f), pen.px(6.0f));
    if (touch.clicked) {
        ui.open = !ui.open;
        ui.unread.which.clear();
        ui.scroll = 0.0f;
        if (ui.open && items.focusVisible()) items.setFocus("events/close");
    }
}

struct Entry {
    std::string time, text;
    float height = 0.0f;
};

constexpr std::size_t kMostListed = 400; // what anybody reads; the record keeps them all

// The latest time is the longest to write.
float widestTime(const View& view, const Pen& pen) {
    const std::vector<BenchEvent>& all = view.session->attempt().events();
    return all.empty() ? 0.0f : pen.width(Face::Bold, timeOf(all.back().time_s));
}

std::vector<Entry> entriesOf(const View& view, const Pen& pen, float textWidth) {
    const std::vector<BenchEvent>& all = view.session->attempt().events();
    std::vector<Entry> out;
    for (std::size_t i = all.size(); i-- > 0 && out.size() < kMostListed;) {
        Entry entry{timeOf(all[i].time_s), sentence(all[i]), 0.0f};
        entry.height = pen.paragraphHeight(Face::Body, textWidth, entry.text) + pen.px(10.0f);
        out.push_back(std::move(entry));
    }
    return out;
}

// Only the entries in sight are written.
void drawEntries(const Pen& pen,
                 const Rect& area,
                 const std::vector<Entry>& entries,
                 float at_px,
                 float timeWidth) {
    pen.list->PushClipRect(area.min, area.max, true);
    float y = area.min.y - std::round(at_px);
    for (const Entry& entry : entries) {
        const float next = y + entry.height;
        if (next > area.min.y && y < area.max.y) {
            const float top = y + pen.px(5.0f);
            pen.left(Face::Bold,
                     {area.min.x, top + pen.line(Face::Body) * 0.5f},
                     tone::kInkSoft,
                     entry.time);
            pen.paragraph(Face::Body,
                          {area.min.x + timeWidth, top},
                          area.width() - timeWidth - pen.px(12.0f),
                          tone::kInk,
                          entry.text);
            pen.list->AddLine(
                {area.min.x, next}, {area.max.x - pen.px(12.0f), next}, tone::kEventLine, 1.0f);
        }
        y = next;
    }
    pen.list->PopClipRect();
}

void drawWholeList(const View& view, Items& items, EventsUi& ui, const Pen& pen) {
    const Rect& board = view.layout.board;
    const float height = std::min(pen.px(340.0f), board.height() * 0.72f);
    const Rect panel{{board.min.x + pen.px(8.0f), board.max.y - height},
                     {board.max.x - pen.px(8.0f), board.max.y}};
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    // A press beside the list closes it; the line under it stays in reach.
    const Touch above = items.add("events/beside",
                                  words("close"),
                                  Zone::Events,
                                  {{0, 0}, {window.x, view.layout.events.min.y}});
    const Touch list = items.add("events/list", words("events/title"), Zone::Events, panel);
    drawSoftShadow(pen.list, panel, pen.px(8.0f), pen.px(18.0f), 0.4f);
    pen.list->AddRectFilled(panel.min, panel.max, tone::kEventPaper, pen.px(8.0f));
    pen.list->AddRect(panel.min, panel.max, tone::kEventLine, pen.px(8.0f), 0, 1.0f);
    if (list.focused || above.focused) drawFocusRing(pen.list, panel, pen.px(8.0f));
    pen.left(Face::Title,
             {panel.min.x + pen.px(16.0f), panel.min.y + pen.px(26.0f)},
             tone::kInk,
             words("events/title"));

    const Rect area{{panel.min.x + pen.px(16.0f), panel.min.y + pen.px(50.0f)},
                    {panel.max.x - pen.px(8.0f), panel.max.y - pen.px(8.0f)}};
    const float timeWidth = widestTime(view, pen) + pen.px(16.0f);
    const std::vector<Entry> entries =
        entriesOf(view, pen, area.width() - timeWidth - pen.px(12.0f));
    float total = 0.0f;
    for (const Entry& entry : entries)
        total += entry.height;
    scrollBy(items, area, Axis::Down, total, view.over != Over::Help, ui.scroll, ui.grip);
    if (view.over == Over::Nothing) pageByKeys(area, ui.scroll, ui.grip);
    drawEntries(pen, area, entries, ui.scroll, timeWidth);
    drawScrollBar(pen.list, area, Axis::Down, total, ui.scroll, tone::kEventLine);

    const bool closed = closeButton(pen,
                                    items,
                                    "events/close",
                                    Zone::Events,
                                    {panel.max.x - pen.px(28.0f), panel.min.y + pen.px(26.0f)});
    if (above.clicked || closed) {
        ui.open = false;
        if (items.focusVisible()) items.setFocus("events/all");
    }
}

} // namespace

void drawEvents(
    const View& view, Items& items, EventsUi& ui, const BoardUi& board, ImDrawList* list) {
    const Pen pen(view, list);
    noteChanges(view, ui.since, board.tool);
    noteUnread(view.session->attempt(), ui.since.undone, ui.unread);
    drawSlip(view, items, ui, board, pen);
    if (ui.open) drawWholeList(view, items, ui, pen);
}

} // namespace loom::screen
