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
# Nothing prints a world, and a page holds only the joints that the yard makes.
set(box2d_lean -include ${CMAKE_CURRENT_LIST_DIR}/box2d_lean.h)
set_source_files_properties(${box2d_sources} PROPERTIES COMPILE_OPTIONS "${box2d_lean}")
set_source_files_properties(${LOOM_DEPS}/box2d/src/common/b2_settings.cpp
    PROPERTIES COMPILE_OPTIONS "")
set_source_files_properties(${LOOM_DEPS}/box2d/src/dynamics/b2_joint.cpp
    PROPERTIES COMPILE_DEFINITIONS LOOM_BOX2D_JOINT_FACTORY)
if(LOOM_SANITIZE)
    # It looks at the type of a joint that it has just destroyed.
    target_compile_options(loom_ext_box2d PRIVATE -fno-sanitize=vptr)
endif()

# nanosvg.h and nanosvgrast.h; define NANOSVG_IMPLEMENTATION and NANOSVGRAST_IMPLEMENTATION in
# one source of src/screen.
loom_obtained(nanosvg INCLUDE ${LOOM_DEPS}/libsdl2-image)

set(imgui ${LOOM_DEPS}/imgui)
set(imgui_draw ${imgui}/imgui_draw.cpp)
if(EMSCRIPTEN) # without the typeface inside it, 10 kB of a page that always brings its own
    file(READ ${imgui_draw} text)
    string(REPLACE "return proggy_clean_ttf_compressed_data_base85;" "return \"\";" text "${text}")
    set(imgui_draw ${CMAKE_BINARY_DIR}/generated/imgui_draw.cpp)
    file(WRITE ${imgui_draw}.in "${text}")
    configure_file(${imgui_draw}.in ${imgui_draw} COPYONLY) # leaves it alone when nothing changed
endif()
loom_obtained(imgui INCLUDE ${imgui} SOURCES
    ${imgui}/imgui.cpp ${imgui_draw} ${imgui}/imgui_tables.cpp ${imgui}/imgui_widgets.cpp)
# Public, so that every user sees the same layout. 32-bit indices: a full bench passes 65535.
target_compile_definitions(loom_ext_imgui PUBLIC
    IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_DEBUG_TOOLS IMGUI_DISABLE_FILE_FUNCTIONS
    IMGUI_DISABLE_OBSOLETE_FUNCTIONS IMGUI_DISABLE_DEFAULT_SHELL_FUNCTIONS
    "ImDrawIdx=unsigned int")

if(EMSCRIPTEN)
    include(${CMAKE_CURRENT_LIST_DIR}/sdl2.cmake)
endif()
