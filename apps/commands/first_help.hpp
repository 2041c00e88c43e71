// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

// What stands below the options in the answer to --help.
extern const char* const first_help;  ///< of the program: where a newcomer starts, and each word of the trade
extern const char* const advise_help;
extern const char* const check_help;
extern const char* const table_help;
extern const char* const field_help;
extern const char* const validate_help;
extern const char* const judge_help;
extern const char* const bench_help;
extern const char* const calibrate_help;
extern const char* const material_help;
extern const char* const wires_help;
extern const char* const export_help;
extern const char* const offset_help;
extern const char* const drawing_help;
extern const char* const compare_help;
extern const char* const remanence_help;
extern const char* const stroke_help;
extern const char* const report_help;
extern const char* const completion_help;
extern const char* const manual_help;
extern const char* const variants_help;

}  // namespace coilpull
