# Third-party code as targets, from the sources that web/obtain unpacked in LOOM_DEPS.
#   loom::eigen loom::json loom::box2d loom::imgui loom::nanosvg loom::doctest   everywhere
#   loom::sdl2                                                                    web only
# Their warnings are not ours to mend, so each comes in as SYSTEM and is built with -w.

if(NOT EXISTS ${LOOM_DEPS}/obtained)
    message(FATAL_ERROR "No third-party sources in ${LOOM_DEPS}. Run web/obtain first.")
endif()

# loom_obtained(name INCLUDE dirs… [SOURCES files…]): library loom_ext_<name>, alias loom::<name>
function(loom_obtained name)
    cmake_parse_arguments(EXT "" "" "INCLUDE;SOURCES" ${ARGN})
    if(EXT_SOURCES)
        add_library(loom_ext_${name} STATIC ${EXT_SOURCES})
        target_compile_options(loom_ext_${name} PRIVATE -w)
        target_include_directories(loom_ext_${name} SYSTEM PUBLIC ${EXT_INCLUDE})
    else()
        add_library(loom_ext_${name} INTERFACE)
        target_include_directories(loom_ext_${name} SYSTEM INTERFACE ${EXT_INCLUDE})
    endif()
    add_library(loom::${name} ALIAS loom_ext_${name})
endfunction()

loom_obtained(eigen INCLUDE /usr/include/eigen3)

# Errors are values, never exceptions: parse(text, nullptr, false).
loom_obtained(json INCLUDE ${LOOM_DEPS}/include)
target_compile_definitions(loom_ext_json INTERFACE JSON_NOEXCEPTION)

loom_obtained(doctest INCLUDE ${LOOM_DEPS}/include)

file(GLOB_RECURSE box2d_sources ${LOOM_DEPS}/box2d/src/*.cpp)
loom_obtained(box2d INCLUDE ${LOOM_DEPS}/box2d/include SOURCES ${box2d_sources})
target_include_directories(loom_ext_box2d PRIVATE ${LOOM_DEPS}/box2d/src)
if(LOOM_SANITIZE)
    # It looks at the type of a joint that it has just destroyed.
    target_compile_options(loom_ext_box2d PRIVATE -fno-sanitize=vptr)
endif()

# nanosvg.h and nanosvgrast.h; define NANOSVG_IMPLEMENTATION and NANOSVGRAST_IMPLEMENTATION in
# one source of src/screen.
loom_obtained(nanosvg INCLUDE ${LOOM_DEPS}/libsdl2-image)

set(imgui ${LOOM_DEPS}/imgui)
loom_obtained(imgui INCLUDE ${imgui} SOURCES
    ${imgui}/imgui.cpp ${imgui}/imgui_draw.cpp ${imgui}/imgui_tables.cpp ${imgui}/imgui_widgets.cpp)
# Public, so that every user sees the same layout. 32-bit indices: a full bench passes 65535.
target_compile_definitions(loom_ext_imgui PUBLIC
    IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_DEBUG_TOOLS IMGUI_DISABLE_FILE_FUNCTIONS
    IMGUI_DISABLE_OBSOLETE_FUNCTIONS IMGUI_DISABLE_DEFAULT_SHELL_FUNCTIONS
    "ImDrawIdx=unsigned int")

if(EMSCRIPTEN)
    include(${CMAKE_CURRENT_LIST_DIR}/sdl2.cmake)
endif()
