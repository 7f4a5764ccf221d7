// SPDX-License-Identifier: MIT
// Dear ImGui's renderer asks the graphics for every state it is about to change, to put it back
// afterwards. Each such question waits until the graphics process has worked off the last frame:
// measured as half of a frame's time with software rendering. Nothing else draws on this canvas, so
// the state may go back to what a new context has, and the answers are known.
// Values: WebGL 1 specification, and OpenGL ES 2.0 specification, tables 6.4 to 6.18.
mergeInto(LibraryManager.library, {
    $loomFreshState: {
        0x84E0: [0x84C0],      // ACTIVE_TEXTURE: TEXTURE0
        0x8B8D: [0],           // CURRENT_PROGRAM
        0x8069: [0],           // TEXTURE_BINDING_2D
        0x8894: [0],           // ARRAY_BUFFER_BINDING
        0x8895: [0],           // ELEMENT_ARRAY_BUFFER_BINDING
        0x0BA2: [0, 0, 0, 0],  // VIEWPORT: set before every frame
        0x0C10: [0, 0, 0, 0],  // SCISSOR_BOX: likewise, where it is used
        0x80C9: [1],           // BLEND_SRC_RGB: ONE
        0x80C8: [0],           // BLEND_DST_RGB: ZERO
        0x80CB: [1],           // BLEND_SRC_ALPHA: ONE
        0x80CA: [0],           // BLEND_DST_ALPHA: ZERO
        0x8009: [0x8006],      // BLEND_EQUATION_RGB: FUNC_ADD
        0x883D: [0x8006]       // BLEND_EQUATION_ALPHA: FUNC_ADD
    },

    glGetIntegerv__deps: ['$emscriptenWebGLGet', '$loomFreshState'],
    glGetIntegerv: function (name, answer) {
        var known = loomFreshState[name];
        if (known) HEAP32.set(known, answer >> 2);
        else emscriptenWebGLGet(name, answer, 0);
    }
});
