// SPDX-License-Identifier: MIT
#include "host/textures.h"

#include <GLES2/gl2.h>
#include <cstdint>

namespace loom::host {

ImTextureID uploadTexture(int width, int height, const unsigned char* rgba) {
    GLuint name = 0;
    glGenTextures(1, &name);
    if (name == 0) return nullptr;
    glBindTexture(GL_TEXTURE_2D, name);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, rgba);
    glBindTexture(GL_TEXTURE_2D, 0);
    return reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(name));
}

void discardTexture(ImTextureID texture) {
    const auto name = static_cast<GLuint>(reinterpret_cast<std::intptr_t>(texture));
    glDeleteTextures(1, &name);
}

} // namespace loom::host
