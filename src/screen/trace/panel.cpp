// SPDX-License-Identifier: MIT
// The card itself: where it lies, its head with the event told, its buttons, and what moves it in
// time. The fields with the curves are in plot.cpp.
#include "screen/trace/panel.h"

#include "screen/kit/keep_clear.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"
#include "screen/trace/plot.h"
#include "screen/trace/words.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {

namespace {

constexpr float kPanelWidth = 452.0f, kLeastHeight = 312.0f, kPerField = 44.0f;
constexpr float kEmptyHeight = 146.0f; // with nothing but how to begin
constexpr float kPad = 10.0f, kHeadHigh = 74.0f, kButtonsHigh = 44.0f;
constexpr float kDragFrom_px = 6.0f;
constexpr double kEventSpan_s = 2.0;

struct Panel {
    const View& view;
    Items& items;
    TraceUi& ui;
    const Pen& pen;
    const attempt::Attempt& attempt;
    const attempt::Trace& trace;
    Intents& out;
    Rect at;
};

double now_s(const Panel& p) {
    return static_cast<double>(p.attempt.now_slices()) * attempt::kSlice_s;
}

double first_s(const Panel& p) {
    return static_cast<double>(p.trace.firstSlice().value_or(p.attempt.now_slices())) *
           attempt::kSlice_s;
}

// The window stays where there is something to see.
void keepInTime(const Panel& p) {
    TraceUi& ui = p.ui;
    ui.span_s = std::clamp(ui.span_s, kLeastTraceSpan_s, kMostTraceSpan_s);
    if (!ui.paused) ui.end_s = now_s(p);
    ui.end_s = std::clamp(ui.end_s, first_s(p), now_s(p) + 0.5 * ui.span_s);
}

Rect placed(const View& view, const TraceUi& ui, std::size_t fields) {
    const float u = view.layout.unit;
    const Rect inner = shrunk(clearBoard(view.layout), 8.0f * u);
    const float wide = std::min(kPanelWidth * u, inner.width());
    const float more = kPerField * static_cast<float>(fields > 1 ? fields - 1 : 0);
    const float high =
        std::min((fields == 0 ? kEmptyHeight : kLeastHeight + more) * u, inner.height());
    // Above the corner with closer, further and whole, where there is room.
    ImVec2 at{ui.atLeft ? inner.min.x : inner.max.x - wide,
              ui.atTop ? inner.min.y : inner.max.y - high - 54.0f * u};
    if (ui.place)
        at = {view.layout.board.min.x + ui.place->x * u, view.layout.board.min.y + ui.place->y * u};
    at.x = std::max(inner.min.x, std::min(at.x, inner.max.x - wide));
    at.y = std::max(inner.min.y, std::min(at.y, inner.max.y - high));
    return rectAt(at.x, at.y, wide, high);
}

// As it opens: the corner in which it will hide least of the parts, the lower right one first.
void chooseCorner(const View& view, const Items& items, TraceUi& ui, std::size_t fields) {
    float least = -1.0f;
    TraceUi best = ui;
    for (const bool left : {false, true})
        for (const bool top : {false, true}) {
            ui.atLeft = left;
            ui.atTop = top;
            const float hidden =
                hiddenOnBoard(items, placed(view, ui, std::max<std::size_t>(2, fields)));
            if (least >= 0.0f && hidden >= least) continue;
            least = hidden;
            best = ui;
        }
    ui = best;
}

float dragged(const ImGuiIO& io) {
    return std::hypot(io.MousePos.x - io.MouseClickedPos[0].x,
                      io.MousePos.y - io.MouseClickedPos[0].y);
}

void movePanel(const Panel& p, const Touch& sheet) {
    TraceUi& ui = p.ui;
    const ImGuiIO& io = ImGui::GetIO();
    if (sheet.pressed) ui.grabbed = {io.MousePos.x - p.at.min.x, io.MousePos.y - p.at.min.y};
    if (sheet.down && dragged(io) > kDragFrom_px) ui.moving = true;
    if (!sheet.down) ui.moving = false;
    if (!ui.moving) return;
    const ImVec2 board = p.view.layout.board.min;
    ui.place = ImVec2((io.MousePos.x - ui.grabbed.x - board.x) / p.pen.unit,
                      (io.MousePos.y - ui.grabbed.y - board.y) / p.pen.unit);
}

// The event the head tells of: the one at the cursor, else the last one in the window.
const attempt::BenchEvent* toldOf(const Panel& p, const TracePlot& plot) {
    const double from_s = p.ui.end_s - p.ui.span_s;
    const double reach_s = 0.02 * p.ui.span_s;
    const attempt::BenchEvent* told = nullptr;
    for (const attempt::BenchEvent& h : p.attempt.events()) {
        if (h.time_s < from_s || h.time_s > p.ui.end_s) continue;
        if (!plot.cursor_s) {
            told = &h;
            continue;
        }
        const double away = std::fabs(h.time_s - *plot.cursor_s);
        if (away <= reach_s && (!told || away <= std::fabs(told->time_s - *plot.cursor_s)))
            told = &h;
    }
    return told;
}

void drawHead(const Panel& p, const attempt::BenchEvent* told) {
    const Pen& pen = p.pen;
    const float left = p.at.min.x + pen.px(kPad + 4.0f);
    pen.left(Face::Title, {left, p.at.min.y + pen.px(24.0f)}, tone::kInk, words("trace/title"));
    if (closeButton(pen,
                    p.items,
                    "trace/close",
                    Zone::Card,
                    {p.at.max.x - pen.px(28.0f), p.at.min.y + pen.px(26.0f)}))
        p.ui.open = false;
    if (!told) return;
    const float room = p.at.width() - pen.px(2.0f * kPad + 8.0f);
    std::string said = timeOf(told->time_s) + "  " + sentence(*told);
    if (pen.width(Face::Body, said) > room) said = sentence(*told);
    pen.left(Face::Body,
             {left, p.at.min.y + pen.px(56.0f)},
             isOrdinary(*told) ? tone::kInk : tone::kFault,
             pen.cut(Face::Body, said, room));
}

// To the last event; pressed again on one, to the one before it.
void toEvent(const Panel& p) {
    const auto& all = p.attempt.events();
    if (all.empty()) return;
    const attempt::BenchEvent* to = &all.back();
    for (std::size_t i = all.size(); p.ui.paused && p.ui.cursor_s && i-- > 0;) {
        if (all[i].time_s >= *p.ui.cursor_s - 1e-9) continue;
        const bool onOne = std::any_of(all.begin(), all.end(), [&](const attempt::BenchEvent& h) {
            return h.time_s == *p.ui.cursor_s;
        });
        if (onOne) to = &all[i];
        break;
    }
    p.ui.paused = true;
    p.ui.span_s = std::min(p.ui.span_s, kEventSpan_s);
    p.ui.cursor_s = to->time_s;
    p.ui.end_s = to->time_s + 0.4 * p.ui.span_s;
}

void save(const Panel& p, bool asTable) {
    const auto slice = [](double time_s) {
        return static_cast<std::int64_t>(std::max(0.0, time_s) / attempt::kSlice_s + 0.5);
    };
    const std::int64_t to = std::min(slice(p.ui.end_s), p.attempt.now_slices());
    const attempt::TraceSheet sheet =
        traceSheet(p.attempt, p.trace, std::min(to, slice(p.ui.end_s - p.ui.span_s)), to);
    if (asTable)
        p.out.push_back(SaveText{"trace.csv", attempt::traceCsv(p.trace, sheet)});
    else
        p.out.push_back(SaveText{"trace.svg", attempt::traceSvg(p.trace, sheet)});
}

void zoomTime(const Panel& p, double factor, double about_s) {
    TraceUi& ui = p.ui;
    const double share = (ui.end_s - about_s) / ui.span_s;
    ui.span_s = std::clamp(ui.span_s * factor, kLeastTraceSpan_s, kMostTraceSpan_s);
    if (ui.paused) ui.end_s = about_s + share * ui.span_s;
}

void pause(const Panel& p) {
    p.ui.paused = !p.ui.paused;
    if (!p.ui.paused) p.ui.cursor_s.reset();
}

// Of the words and of the item alike.
constexpr const char* kTools[] = {
    "trace/pause", "trace/event", "trace/closer", "trace/further", "trace/csv", "trace/svg"};
constexpr std::size_t kEventTool = 1;

void useTool(const Panel& p, std::size_t which) {
    const double middle_s = p.ui.cursor_s.value_or(p.ui.end_s - 0.5 * p.ui.span_s);
    switch (which) {
    case 0:
        return pause(p);
    case 1:
        return toEvent(p);
    case 2:
        return zoomTime(p, 0.5, middle_s);
    case 3:
        return zoomTime(p, 2.0, middle_s);
    case 4:
        return save(p, true);
    default:
        return save(p, false);
    }
}

std::string toolLabel(const Panel& p, std::size_t which) {
    return words(which == 0 && p.ui.paused ? "trace/go-on" : kTools[which]);
}

// Side by side over the whole width, each as wide as its words ask for and some more.
void drawTools(const Panel& p) {
    const Pen& pen = p.pen;
    const float gap = pen.px(5.0f), left = p.at.min.x + pen.px(kPad),
                right = p.at.max.x - pen.px(kPad);
    float used = -gap;
    for (std::size_t i = 0; i < std::size(kTools); ++i)
        used +=
            std::max(pen.px(44.0f), pen.width(Face::Bold, toolLabel(p, i)) + pen.px(12.0f)) + gap;
    const float count = static_cast<float>(std::size(kTools));
    const float more = (right - left - used) / count;
    // Where they are too wide together, what each has over the least gives way.
    const float least = pen.px(44.0f), over = used + gap - count * (least + gap);
    const float share =
        more < 0.0f && over > 0.0f ? std::max(0.0f, 1.0f + more * count / over) : 1.0f;
    float x = left;
    for (std::size_t i = 0; i < std::size(kTools); ++i) {
        const std::string label = toolLabel(p, i);
        const float asked = std::max(least, pen.width(Face::Bold, label) + pen.px(12.0f));
        const float wide = least + share * (asked - least) + std::max(0.0f, more);
        const Rect at = rectAt(x,
                               p.at.max.y - pen.px(kPad + kButtonsHigh),
                               std::min(wide, right - x),
                               pen.px(kButtonsHigh));
        const bool enabled = i != kEventTool || !p.attempt.events().empty();
        if (button(pen, p.items, kTools[i], label, Zone::Card, at, ButtonLook::Paper, enabled))
            useTool(p, i);
        x += wide + gap;
    }
}

// Dragging, the wheel and the keys move the window or the cursor.
void moveInTime(const Panel& p, const TracePlot& plot, const Touch& touch) {
    TraceUi& ui = p.ui;
    const ImGuiIO& io = ImGui::GetIO();
    const double perPixel_s = ui.span_s / std::max(1.0f, plot.curves.width());
    if (touch.pressed) ui.grabbed_s = ui.end_s + io.MousePos.x * perPixel_s;
    if (touch.down && dragged(io) > kDragFrom_px) ui.panning = true;
    if (ui.panning && touch.down) {
        ui.paused = true;
        ui.end_s = ui.grabbed_s - io.MousePos.x * perPixel_s;
    } else if (touch.clicked && !ui.panning && touch.hot) {
        ui.cursor_s = plot.timeAt(io.MousePos.x);
    }
    if (!touch.down) ui.panning = false;
    if (touch.hot && io.MouseWheel != 0.0f) {
        if (io.KeyCtrl) {
            zoomTime(p, io.MouseWheel > 0.0f ? 0.8 : 1.25, plot.timeAt(io.MousePos.x));
        } else {
            ui.paused = true;
            ui.end_s -= 0.1 * ui.span_s * static_cast<double>(io.MouseWheel);
        }
    }
    if (!touch.focused) return;
    p.items.keepSideways();
    const int step = (ImGui::IsKeyPressed(ImGuiKey_RightArrow) ? 1 : 0) -
                     (ImGui::IsKeyPressed(ImGuiKey_LeftArrow) ? 1 : 0);
    if (step == 0) return;
    ui.paused = true;
    ui.cursor_s = ui.cursor_s.value_or(ui.end_s) + 0.01 * ui.span_s * step;
    ui.cursor_s = std::clamp(*ui.cursor_s, std::min(first_s(p), now_s(p)), now_s(p));
    ui.end_s = std::clamp(ui.end_s, *ui.cursor_s, *ui.cursor_s + ui.span_s);
}

std::string spoken(const Panel& p, const TracePlot& plot) {
    std::string out = words("trace/said");
    const double at_s = plot.cursor_s.value_or(p.ui.end_s);
    for (std::size_t i = 0; i < p.trace.size(); ++i) {
        const attempt::TraceLabel label = traceLabel(p.attempt.bench(), p.trace.quantity(i));
        out += " " + label.name + ": " + readingAt(p.trace, i, label, at_s) + ".";
    }
    if (p.trace.idle()) out += " " + words("trace/empty");
    return out + " " + timeOf(at_s) + ".";
}

void drawEmpty(const Panel& p) {
    const float in = p.pen.px(kPad + 4.0f);
    p.pen.paragraph(Face::Body,
                    {p.at.min.x + in, p.at.min.y + p.pen.px(52.0f)},
                    p.at.width() - 2.0f * in,
                    tone::kInkSoft,
                    words("trace/empty"));
}

void drawContent(const Panel& p) {
    const Pen& pen = p.pen;
    const Rect area{{p.at.min.x + pen.px(kPad), p.at.min.y + pen.px(kHeadHigh)},
                    {p.at.max.x - pen.px(kPad), p.at.max.y - pen.px(kPad + kButtonsHigh + 6.0f)}};
    if (p.trace.idle()) {
        drawHead(p, nullptr);
        return drawEmpty(p);
    }
    TracePlot plot = layPlot(pen, area, p.ui, p.trace.size());
    const Touch touch = p.items.add(
        "trace/plot", spoken(p, plot), Zone::Card, {area.min, {plot.curves.max.x, area.max.y}});
    moveInTime(p, plot, touch);
    keepInTime(p);
    plot = layPlot(pen, area, p.ui, p.trace.size());
    if (touch.hot && !p.view.touch && !p.ui.panning)
        plot.cursor_s = plot.timeAt(ImGui::GetIO().MousePos.x);
    drawPlot(pen, plot, p.attempt, p.trace);
    if (touch.focused) drawFocusRing(pen.list, area, pen.px(6.0f));
    for (std::size_t i = 0; i < p.trace.size(); ++i) {
        const Rect field = plot.fields[i];
        const std::string name = "trace/remove/" + std::to_string(i + 1);
        if (closeButton(pen,
                        p.items,
                        name,
                        Zone::Card,
                        {p.at.max.x - pen.px(28.0f), field.min.y + pen.px(22.0f)}))
            p.out.push_back(Unwatch{p.trace.quantity(i)});
    }
    drawHead(p, toldOf(p, plot));
    drawTools(p);
}

} // namespace

void drawTrace(const View& view, Items& items, TraceUi& ui, ImDrawList* list, Intents& out) {
    if (view.session->trace().idle()) { // nothing to go back to
        ui.paused = false;
        ui.cursor_s.reset();
    }
    if (!ui.open) {
        ui.moving = ui.panning = ui.wasOpen = false;
        return;
    }
    if (!ui.wasOpen && !ui.place) chooseCorner(view, items, ui, view.session->trace().size());
    ui.wasOpen = true;
    const Pen pen(view, list);
    const lesson::Session& session = *view.session;
    Panel p{view,
            items,
            ui,
            pen,
            session.attempt(),
            session.trace(),
            out,
            placed(view, ui, session.trace().size())};
    keepInTime(p);
    const Touch sheet = items.add("trace/sheet", words("trace/said-sheet"), Zone::Card, p.at);
    movePanel(p, sheet);
    p.at = placed(view, ui, p.trace.size());
    list->PushClipRect(view.layout.board.min, view.layout.board.max, true);
    drawSoftShadow(list, p.at, pen.px(6.0f), pen.px(12.0f), 0.4f);
    list->AddRectFilled(p.at.min, p.at.max, tone::kPaper, pen.px(6.0f));
    list->AddRect(p.at.min, p.at.max, tone::kPaperLine, pen.px(6.0f), 0, 1.2f);
    if (sheet.focused) drawFocusRing(list, p.at, pen.px(6.0f));
    drawContent(p);
    list->PopClipRect();
}

} // namespace loom::screen
