// The main() of every test executable; the tests themselves include only <doctest/doctest.h>.
#define DOCTEST_CONFIG_IMPLEMENT_WITH_MAIN
#include <doctest/doctest.h>
