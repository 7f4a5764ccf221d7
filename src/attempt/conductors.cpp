// SPDX-License-Identifier: MIT
#include "attempt/conductors.h"

namespace loom::attempt {

circuit::NodeGroups conductorsOf(const LiveCircuit& live) {
    circuit::NodeGroups metal(live.wires().netlist.nodeCount);
    for (const circuit::Element& element : live.wires().netlist.elements) {
        if (const auto* cable = std::get_if<circuit::Cable>(&element.part)) {
            if (!live.reading(element.key).open) metal.join(cable->a, cable->b);
        } else if (const auto* fuse = std::get_if<circuit::Fuse>(&element.part)) {
            if (!live.reading(element.key).open) metal.join(fuse->a, fuse->b);
        } else if (const auto* contact = std::get_if<circuit::Contact>(&element.part)) {
            if (contact->closed) metal.join(contact->a, contact->b);
        }
    }
    return metal;
}

} // namespace loom::attempt
