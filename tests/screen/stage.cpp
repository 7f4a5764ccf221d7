// SPDX-License-Identifier: MIT
#include "screen/stage.h"

#include "assets/embedded.h"
#include "bench/catalogue.h"
#include "bench/file.h"
#include "lesson/course.h"
#include "said.h"
#include "screen/sentences.h"

#include <cstdlib>
#include <stdexcept>

namespace loom::test {
namespace {

std::string_view file(const std::string& path) {
    const Embedded* found = findEmbedded(path.c_str());
    if (!found) return {};
    return {reinterpret_cast<const char*>(found->bytes), found->size};
}

lesson::Session openCourse() {
    auto course = lesson::builtInCourse();
    auto free = bench::fromJson(file("assets/benches/free.loom.json"));
    if (!course) throw std::runtime_error("course: " + screen::sentence(course.refusal()));
    if (!free) throw std::runtime_error("free bench: " + screen::sentence(free.refusal()));
    return {std::move(course.value()), std::move(free.value())};
}

ImFont* load(const char* name, float size_px) {
    static const ImWchar letters[] = {0x20, 0x2ff, 0x370, 0x3ff, 0x1e80, 0x1eff, 0x2010, 0x2265, 0};
    const std::string_view font = file(std::string("fonts/OpenSans-") + name + ".ttf");
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<char*>(font.data()),
                                                      static_cast<int>(font.size()),
                                                      size_px * screen::kLinePerEm,
                                                      &config,
                                                      letters);
}

screen::Fonts loadFonts(float unit) {
    screen::Fonts fonts;
    fonts.body = load("Regular", 16 * unit);
    fonts.bold = load("Semibold", 16 * unit);
    fonts.title = load("Semibold", 19 * unit);
    fonts.large = load("Semibold", 24 * unit);
    fonts.legend = load("Semibold", 13 * unit);
    return fonts;
}

} // namespace

Stage::Stage(int w, int h, float larger_)
    : width(w), height(h), larger(larger_),
      sitting(std::make_unique<lesson::Session>(openCourse())) {
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {static_cast<float>(w), static_cast<float>(h)};
    io.DeltaTime = 1.0f / 60.0f;
    view.session = sitting.get();
    view.layout = screen::layOut(io.DisplaySize.x, io.DisplaySize.y, larger);
    view.fonts = loadFonts(view.layout.unit);
    unsigned char* pixels = nullptr;
    int across = 0, down = 0;
    io.Fonts->GetTexDataAsRGBA32(&pixels, &across, &down);
    io.Fonts->SetTexID(textures.add(across, down, pixels));
    pictures = std::make_unique<art::PictureStore>(
        [](const std::string& name) { return file("assets/" + name + ".svg"); },
        [this](int wide, int high, const unsigned char* rgba) {
            return textures.add(wide, high, rgba);
        },
        [this](ImTextureID id) { textures.remove(id); });
    moveTo({-1000, -1000});
    frames(2);
}

Stage::~Stage() {
    pictures.reset();
    ImGui::DestroyContext();
}

void Stage::frame() {
    view.layout =
        screen::layOut(static_cast<float>(width), static_cast<float>(height), larger, ui.tray.open);
    clock_s += 1.0 / 60.0;
    view.clock_s = clock_s;
    ImGui::NewFrame();
    screen::Intents intents;
    screen::drawRoom(view, ui, *pictures, intents);
    ImGui::Render();
    apply(intents);
}

void Stage::frames(int count) {
    for (int i = 0; i < count; ++i)
        frame();
}

void Stage::run(double seconds) {
    sitting->advance(static_cast<std::int64_t>(seconds / attempt::kSlice_s + 0.5));
}

void Stage::apply(const screen::Intents& intents) {
    for (const screen::Intent& intent : intents) {
        if (const auto* done = std::get_if<screen::Do>(&intent)) ask(done->command);
        if (const auto* begun = std::get_if<screen::Begin>(&intent))
            sitting->begin(begun->exercise);
        saved = saved || std::holds_alternative<screen::SaveBench>(intent);
        if (const auto* text = std::get_if<screen::SaveText>(&intent)) texts.push_back(*text);
        if (const auto* wish = std::get_if<screen::Watch>(&intent)) {
            if (!sitting->watch(wish->quantity))
                screen::showNotice(ui, screen::words("trace/full"));
        }
        if (const auto* wish = std::get_if<screen::Unwatch>(&intent))
            sitting->unwatch(wish->quantity);
        opened = opened || std::holds_alternative<screen::OpenBench>(intent);
        if (const auto* wish = std::get_if<screen::SetLanguage>(&intent))
            words::setLanguage(wish->language);
    }
}

void Stage::moveTo(ImVec2 at) {
    ImGui::GetIO().AddMousePosEvent(at.x, at.y);
}

void Stage::press() {
    ImGui::GetIO().AddMouseButtonEvent(0, true);
}

void Stage::release() {
    ImGui::GetIO().AddMouseButtonEvent(0, false);
}

void Stage::clickAt(ImVec2 at) {
    moveTo(at);
    frames(2);
    press();
    frames(2);
    release();
    frames(3);
}

void Stage::click(const std::string& item) {
    clickAt(rectOf(item).centre());
}

void Stage::drag(ImVec2 from, ImVec2 to) {
    moveTo(from);
    frames(2);
    press();
    frames(2);
    for (int i = 1; i <= 12; ++i) {
        const float share = static_cast<float>(i) / 12.0f;
        moveTo({from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share});
        frame();
    }
    release();
    frames(3);
}

void Stage::key(ImGuiKey key) {
    ImGui::GetIO().AddKeyEvent(key, true);
    frame();
    ImGui::GetIO().AddKeyEvent(key, false);
    frames(2);
}

void Stage::wheel(float turned) {
    ImGui::GetIO().AddMouseWheelEvent(0.0f, turned);
    frames(2);
}

bool Stage::has(const std::string& item) const {
    for (const screen::Item& each : ui.items.all())
        if (each.name == item) return true;
    return false;
}

screen::Rect Stage::rectOf(const std::string& item) const {
    const screen::Item* found = has(item) ? ui.items.find(item) : nullptr;
    return found ? found->rect : screen::Rect{};
}

std::string Stage::labelOf(const std::string& item) const {
    const screen::Item* found = has(item) ? ui.items.find(item) : nullptr;
    return found ? found->label : std::string();
}

void Stage::resize(int w, int h) {
    width = w;
    height = h;
    ImGui::GetIO().DisplaySize = {static_cast<float>(w), static_cast<float>(h)};
}

void Stage::takeUp(const attempt::Record& record) {
    if (const auto refused = sitting->takeUp(record))
        throw std::runtime_error("take up: " + screen::sentence(*refused));
    ++view.opened;
    frames(2);
}

void Stage::takeCourse(std::vector<lesson::Exercise> course) {
    const bench::Bench free = sitting->attempt().bench();
    sitting = std::make_unique<lesson::Session>(std::move(course), free);
    view.session = sitting.get();
}

void Stage::begin(const std::string& exercise) {
    sitting->begin(exercise);
    frames(2);
}

void Stage::open(const bench::Bench& bench) {
    sitting->openBench(bench);
    frames(2);
}

void Stage::unwatchAll() {
    while (sitting->trace().size() > 0)
        sitting->unwatch(sitting->trace().quantity(0));
}

bool Stage::ask(const attempt::Command& command) {
    const auto refused = sitting->ask(command);
    lastRefusal = refused ? screen::sentence(*refused) : std::string();
    return !refused;
}

bench::PartId Stage::lay(const std::string& ref, double x_m, double y_m) {
    ask(bench::Edit{bench::LayPart{ref, {x_m, y_m}, 0}});
    const bench::Part* part = bench::findPart(sitting->attempt().bench(), ref);
    return part ? part->id : bench::PartId{};
}

// "K1 normally open"
bench::TerminalRef Stage::terminal(const std::string& ref, const std::string& word) const {
    return bench::findTerminal(sitting->attempt().bench(), ref, word)
        .value_or(bench::TerminalRef{});
}

void Stage::wire(const std::string& from,
                 const std::string& to,
                 double area_m2,
                 bench::Sleeve sleeve) {
    const auto at = [&](const std::string& name) {
        const std::size_t space = name.find(' ');
        return terminal(name.substr(0, space), name.substr(space + 1));
    };
    ask(bench::Edit{bench::MakeCable{at(from), at(to), area_m2, sleeve, 0.0, ""}});
}

Bitmap Stage::picture() {
    Bitmap bitmap(width, height, 0, 0, 0);
    const ImDrawData* drawn = ImGui::GetDrawData();
    for (const ImDrawList* list : drawn->CmdLists)
        raster(*list, textures, bitmap);
    return bitmap;
}

void Stage::shoot(const std::string& name) {
    if (const char* folder = std::getenv("LOOM_SHOTS"))
        writePixmap(picture(), std::string(folder) + "/" + name + ".ppm");
}

} // namespace loom::test
