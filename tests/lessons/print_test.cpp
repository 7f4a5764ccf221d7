// SPDX-License-Identifier: MIT
// The pages of paper: what a builder needs to find on them.
#include "lessons/paper_pippin.h"
#include "plan/print.h"
#include "words/sentences.h"

#include <doctest/doctest.h>
#include <set>

using namespace loom;
using plan::Plan;

namespace {

// The last word of the key stands for its sentence.
const plan::Say say{
    [](std::string_view key) { return std::string(key.substr(key.rfind('/') + 1)); }, words::text};

std::vector<std::string> pagesOf(const char* which, const Plan& plan) {
    const auto pages = plan::printedPages(which, {plan, "Pippin", say});
    REQUIRE(pages);
    return pages.value();
}

std::string all(const std::vector<std::string>& pages) {
    std::string out;
    for (const std::string& page : pages)
        out += page;
    return out;
}

int count(const std::string& text, const std::string& word) {
    int n = 0;
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
        ++n;
    return n;
}

// Every tag that is opened is closed, in order.
bool balanced(const std::string& svg) {
    std::vector<std::string> open;
    for (std::size_t at = svg.find('<'); at != std::string::npos; at = svg.find('<', at + 1)) {
        const std::size_t end = svg.find('>', at);
        if (end == std::string::npos) return false;
        const std::string tag = svg.substr(at + 1, end - at - 1);
        const std::string name = tag.substr(0, tag.find_first_of(" /"));
        if (tag[0] == '/') {
            if (open.empty() || open.back() != tag.substr(1)) return false;
            open.pop_back();
        } else if (tag.back() != '/') {
            open.push_back(name);
        }
    }
    return open.empty();
}

} // namespace

TEST_CASE("Every page is a closed SVG of A4 lying, in millimetres") {
    const auto pages = pagesOf("all", test::pippinPlan());
    CHECK(pages.size() >= 7);
    for (const std::string& page : pages) {
        CHECK(page.find("width=\"297mm\" height=\"210mm\"") != std::string::npos);
        CHECK(balanced(page));
    }
    CHECK(balanced(plan::onOneSheet(pages)));
}

TEST_CASE("The plan's pages name every cable, on the drawing and in the table") {
    const Plan plan = test::pippinPlan();
    const auto pages = pagesOf("plan", plan);
    REQUIRE(pages.size() >= 2);
    for (const plan::PlanCable& cable : plan.cables) {
        CAPTURE(cable.label);
        CHECK(pages[0].find(">" + cable.label + "</text>") != std::string::npos);
        CHECK(all({pages.begin() + 1, pages.end()}).find(">" + cable.label + "</text>") !=
              std::string::npos);
    }
    CHECK(pages[0].find("stroke-dasharray") != std::string::npos); // colour is not all there is
    CHECK(all(pages).find("violet VT") != std::string::npos);
    CHECK(all(pages).find("X1/4") != std::string::npos);
}

TEST_CASE("The check sheet has two boxes a person for every cable") {
    const Plan plan = test::pippinPlan();
    const auto pages = pagesOf("sheet", plan);
    const std::string table = all({pages.begin(), pages.end() - 1});
    CHECK(count(table, "<rect") == static_cast<int>(plan.cables.size()) * 4);
    CHECK(pages.back().find("series link") != std::string::npos);
    CHECK(pages.back().find("checked-by") != std::string::npos);
}

TEST_CASE("The cutting list adds up what comes off each reel") {
    // By hand from the table of Pippin: 10 mm2 red 0.25 + 0.40 + 0.60, black 0.30 + 0.70.
    const std::string text = all(pagesOf("parts", test::pippinPlan()));
    CHECK(text.find("total 10 mm\u00b2 red RD") != std::string::npos);
    CHECK(text.find(">1.25 m<") != std::string::npos);
    CHECK(text.find(">1.00 m<") != std::string::npos);
    for (const plan::PlanPart& part : test::pippinPlan().parts)
        CHECK(text.find(">" + part.ref + "<") != std::string::npos);
}

TEST_CASE("There is a label for each end of each cable, with where it goes") {
    const Plan plan = test::pippinPlan();
    const std::string text = all(pagesOf("labels", plan));
    CHECK(count(text, "stroke-dasharray=\"1.5 1.2\"") == static_cast<int>(plan.cables.size()) * 2);
    CHECK(count(text, ">P-06<") == 2);
    CHECK(text.find(">K1 normally open<") != std::string::npos);
}

TEST_CASE("Names with signs of their own do no harm to a page") {
    Plan plan = test::pippinPlan();
    plan.cables[0].label = "<a&\"b\">";
    plan.cables[1].note = "5 < 6 & so on";
    for (const std::string& page : pagesOf("all", plan))
        CHECK(balanced(page));
    CHECK(all(pagesOf("labels", plan)).find("&lt;a&amp;&quot;b&quot;&gt;") != std::string::npos);
}

TEST_CASE("Another word than the papers' is refused, and an empty plan still has its pages") {
    const Plan plan = test::pippinPlan();
    CHECK_FALSE(plan::printedPages("poster", {plan, "Pippin", say}));
    for (const std::string& page : pagesOf("all", Plan{}))
        CHECK(balanced(page));
}
