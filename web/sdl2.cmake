# SDL2 for the page: window, events, touch and GLES2, compiled straight from these sources
# (SDL_config.h chooses the Emscripten configuration by itself), and the Dear ImGui backends on it.
# No audio and no fast copying of surfaces: nothing here uses them, and they are a sixth of a page.
set(sdl2 ${LOOM_DEPS}/libsdl2)

# sdl2_add(folder names…) appends src/<folder>/<name>.c
macro(sdl2_add folder)
    foreach(name ${ARGN})
        list(APPEND sdl2_sources ${sdl2}/src/${folder}/${name}.c)
    endforeach()
endmacro()

sdl2_add(. SDL SDL_assert SDL_dataqueue SDL_error SDL_hints SDL_list SDL_log SDL_utils)
sdl2_add(atomic SDL_atomic SDL_spinlock)
sdl2_add(cpuinfo SDL_cpuinfo)
sdl2_add(events SDL_displayevents SDL_events SDL_gesture SDL_keyboard SDL_mouse SDL_quit SDL_touch
         SDL_windowevents)
sdl2_add(file SDL_rwops)
sdl2_add(loadso/dlopen SDL_sysloadso)
sdl2_add(sensor SDL_sensor)
sdl2_add(sensor/dummy SDL_dummysensor)
sdl2_add(stdlib SDL_getenv SDL_malloc SDL_qsort SDL_stdlib SDL_string)
sdl2_add(thread SDL_thread)
sdl2_add(thread/generic SDL_sysmutex SDL_syssem SDL_systhread SDL_systls)
sdl2_add(timer SDL_timer)
sdl2_add(timer/unix SDL_systimer)
sdl2_add(video SDL_RLEaccel SDL_blit SDL_blit_0 SDL_blit_1 SDL_blit_A SDL_blit_N SDL_blit_auto
         SDL_blit_copy SDL_blit_slow SDL_clipboard SDL_egl SDL_fillrect SDL_pixels SDL_rect
         SDL_stretch SDL_surface SDL_video SDL_yuv)
sdl2_add(video/yuv2rgb yuv_rgb)
sdl2_add(video/emscripten SDL_emscriptenevents SDL_emscriptenmouse
         SDL_emscriptenopengles SDL_emscriptenvideo)

# No pictures as cursors, and no entry points of GL by name: both would bring in much that the page
# never calls. What takes their place is in sdl2_absent.c.
set_source_files_properties(${sdl2}/src/video/emscripten/SDL_emscriptenmouse.c PROPERTIES
    COMPILE_DEFINITIONS SDL_ConvertSurfaceFormat=loom_no_cursor_picture)
set_source_files_properties(${sdl2}/src/video/emscripten/SDL_emscriptenopengles.c PROPERTIES
    COMPILE_DEFINITIONS eglGetProcAddress=loom_no_entry_point)

# BEFORE: Emscripten's sysroot also holds headers of SDL 1.
add_library(loom_ext_sdl2 STATIC ${sdl2_sources})
target_include_directories(loom_ext_sdl2 BEFORE PUBLIC ${sdl2}/include)
target_compile_options(loom_ext_sdl2 PRIVATE -w)
target_compile_definitions(loom_ext_sdl2 PRIVATE SDL_JOYSTICK_DISABLED=1 SDL_RENDER_DISABLED=1
    SDL_AUDIO_DISABLED=1 SDL_LEAN_AND_MEAN=1)
add_library(loom::sdl2 ALIAS loom_ext_sdl2)

add_library(loom_ext_imgui_sdl2 STATIC
    ${imgui}/backends/imgui_impl_sdl2.cpp ${imgui}/backends/imgui_impl_opengl3.cpp
    ${CMAKE_SOURCE_DIR}/web/sdl2_absent.c)
target_include_directories(loom_ext_imgui_sdl2 SYSTEM PUBLIC ${imgui}/backends)
target_compile_options(loom_ext_imgui_sdl2 PRIVATE -w)
target_compile_definitions(loom_ext_imgui_sdl2 PUBLIC IMGUI_IMPL_OPENGL_ES2)
target_link_libraries(loom_ext_imgui_sdl2 PUBLIC loom_ext_imgui loom_ext_sdl2)
add_library(loom::imgui_sdl2 ALIAS loom_ext_imgui_sdl2)
