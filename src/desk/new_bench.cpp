// SPDX-License-Identifier: MIT
#include "assets/embedded.h"
#include "desk/commands.h"

namespace loom::desk {

Said newBench(const std::vector<std::string>& arguments) {
    const std::string name = arguments.empty() ? "free" : arguments[0];
    const bool known = name == "free" || name == "pippin";
    if (!known || arguments.size() > 1)
        return failure(WrongUse,
                       {bench::Why::UnknownWord,
                        "new",
                        "free or pippin",
                        known ? "a second, " + arguments[1] : name});
    const std::string path = "assets/benches/" + name + ".loom.json";
    const Embedded* file = findEmbedded(path.c_str());
    if (!file)
        return failure(Unreadable, {bench::Why::Missing, path, "this file in the program", "none"});
    return {Done, {reinterpret_cast<const char*>(file->bytes), file->size}, ""};
}

} // namespace loom::desk
