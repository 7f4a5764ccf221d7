// SPDX-License-Identifier: MIT
#include "ida.h"

#include <doctest/doctest.h>
#include <ida/ida.h>
#include <limits>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

namespace loom::physics {

struct Independent::Work {
    const Rates* f = nullptr;
    const Zero* g = nullptr;
    std::vector<double> found; // rates
    SUNContext context = nullptr;
    N_Vector y = nullptr, yp = nullptr, tolerance = nullptr;
    SUNMatrix matrix = nullptr;
    SUNLinearSolver solver = nullptr;
    void* memory = nullptr;

    static int residual(realtype t, N_Vector y, N_Vector yp, N_Vector r, void* self) {
        Work& w = *static_cast<Work*>(self);
        (*w.f)(t, N_VGetArrayPointer(y), w.found.data());
        for (std::size_t k = 0; k < w.found.size(); ++k)
            N_VGetArrayPointer(r)[k] = N_VGetArrayPointer(yp)[k] - w.found[k];
        return 0;
    }

    static int zero(realtype t, N_Vector y, N_Vector, realtype* out, void* self) {
        *out = (*static_cast<Work*>(self)->g)(t, N_VGetArrayPointer(y));
        return 0;
    }

    void release() {
        IDAFree(&memory);
        SUNLinSolFree(solver);
        SUNMatDestroy(matrix);
        N_VDestroy(y);
        N_VDestroy(yp);
        N_VDestroy(tolerance);
        SUNContext_Free(&context);
    }
};

Independent::Independent(std::vector<double> initial, Rates f, std::vector<double> scale)
    : work(new Work), start(std::move(initial)), scales(std::move(scale)), rates(std::move(f)) {
    scales.resize(start.size(), 1.0);
    begin();
}

Independent::~Independent() {
    work->release();
    delete work;
}

void Independent::begin() {
    Work& w = *work;
    const auto n = static_cast<sunindextype>(start.size());
    w.f = &rates;
    w.found.resize(start.size());
    REQUIRE(SUNContext_Create(nullptr, &w.context) == 0);
    w.y = N_VNew_Serial(n, w.context);
    w.yp = N_VNew_Serial(n, w.context);
    w.tolerance = N_VNew_Serial(n, w.context);
    rates(now_s, start.data(), w.found.data());
    for (std::size_t k = 0; k < start.size(); ++k) {
        N_VGetArrayPointer(w.y)[k] = start[k];
        N_VGetArrayPointer(w.yp)[k] = w.found[k];
        N_VGetArrayPointer(w.tolerance)[k] = 1e-12 * scales[k];
    }
    w.memory = IDACreate(w.context);
    w.matrix = SUNDenseMatrix(n, n, w.context);
    w.solver = SUNLinSol_Dense(w.y, w.matrix, w.context);
    REQUIRE(IDAInit(w.memory, Work::residual, now_s, w.y, w.yp) == IDA_SUCCESS);
    REQUIRE(IDASVtolerances(w.memory, 1e-10, w.tolerance) == IDA_SUCCESS);
    REQUIRE(IDASetUserData(w.memory, &w) == IDA_SUCCESS);
    REQUIRE(IDASetLinearSolver(w.memory, w.solver, w.matrix) == IDA_SUCCESS);
    REQUIRE(IDASetMaxNumSteps(w.memory, 1000000) == IDA_SUCCESS);
}

void Independent::until(double time_s) {
    if (time_s <= now_s) return;
    REQUIRE(IDASetStopTime(work->memory, time_s) == IDA_SUCCESS);
    REQUIRE(IDASolve(work->memory, time_s, &now_s, work->y, work->yp, IDA_NORMAL) >= 0);
}

double Independent::event(const Zero& g, double limit_s) {
    work->g = &g;
    watch(1);
    REQUIRE(IDASetStopTime(work->memory, limit_s) == IDA_SUCCESS);
    const int end = IDASolve(work->memory, limit_s, &now_s, work->y, work->yp, IDA_NORMAL);
    REQUIRE(end >= 0);
    watch(0);
    return end == IDA_ROOT_RETURN ? now_s : std::numeric_limits<double>::quiet_NaN();
}

// Begins anew from here, since IDA takes roots only from the beginning of a run.
void Independent::watch(int roots) {
    rates(now_s, N_VGetArrayPointer(work->y), N_VGetArrayPointer(work->yp));
    REQUIRE(IDAReInit(work->memory, now_s, work->y, work->yp) == IDA_SUCCESS);
    REQUIRE(IDARootInit(work->memory, roots, roots > 0 ? Work::zero : nullptr) == IDA_SUCCESS);
}

void Independent::restart(std::vector<double> states, Rates f) {
    work->release();
    start = std::move(states);
    rates = std::move(f);
    begin();
}

double Independent::operator[](std::size_t k) const {
    return N_VGetArrayPointer(work->y)[k];
}

std::vector<double> Independent::states() const {
    const double* const y = N_VGetArrayPointer(work->y);
    return {y, y + start.size()};
}

} // namespace loom::physics
