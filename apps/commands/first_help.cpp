// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/first_help.hpp"

namespace coilpull {

const char* const first_help =
    R"(Start here:
  1. Describe the device in a text file. This is a whole one, small.toml:

       [coil.drive]
       tube  = { inner_radius_mm = 6, outer_radius_mm = 9, from_mm = -5, to_mm = 5 }
       turns = 100

       [magnet.plunger]
       material   = { remanence_T = 1.2, recoil_permeability = 1.05 }
       cylinder   = { radius_mm = 4, from_mm = 0, to_mm = 8 }
       magnetised = "+z"

       [motion]
       moving          = ["plunger"]
       displacement_mm = { from = 0, to = 10, points = 11 }

       [current]
       drive_A = [-2, 0, 2]

     data/devices/01_tube_pusher.toml explains every key; copy it and change it.
  2. coilpull check small.toml               reads it, tells what it understood
  3. coilpull table small.toml               every displacement and current: force_table.csv
  4. coilpull field small.toml --displacement-mm 2 --current drive=1.5
                                             one point in full
  coilpull check --help and so on: more about each.

Signs: z runs along the axis; displacement, force and Bz count positive along +z; a positive current runs
counter-clockwise seen from +z, so that Bz inside its coil is positive.

Words:
  circuit       coils that carry the same current; a coil alone is a circuit of its own name
  clearance     smallest distance between moving and fixed parts
  coenergy      flux linkage times current, summed over the circuits, less the stored energy [J]; its slope
                along the displacement at fixed currents is the force
  displacement  how far the moving parts are shifted along +z from where the file draws them
  error bar     half width of the range that the number is computed to; it knows nothing of the steel's
                batch, the magnet's grade or a gap that is really wider
  flux linkage  the flux through every single turn of a circuit, added up [Wb]; its rate of change is the
                voltage that the motion induces
  knee          where a magnet's curve bends down: driven past it, by heat or a reverse field, it loses
                remanence for good. Not in the numbers: keep the magnet above it
  recoil        the straight line on which a magnet's B follows its H above the knee; recoil_permeability is
                its slope over that of air, about 1.05 for neodymium
  remanence     B that a magnet keeps when steel closes its circuit, Br [T]; the first number of its grade
  saturation    steel that is full: more current adds no more field than it would in air

Exit codes: 0 good, 2 wrong input, 3 some row is not ok, 4 cannot write, 130 stopped.)";

const char* const check_help =
    R"(Tells every part with its size, volume and material, whether each winding holds its turns of wire, how
many points the table has, and whether the parts clear each other over the whole stroke. Takes no time:
do it first.

  coilpull check small.toml
  coilpull check small.toml -o small_out     and draws the device there, to scale
  coilpull check --canonical small.toml      the same device as one plain file, to keep or compare)";

const char* const table_help =
    R"(Solves every displacement with every set of currents that the file asks for, and writes force_table.csv:
force and flux linkages with their error bars, coenergy, flux density in the steel, sensors, and a status
in each row; pictures stand beside it. The summary tells the strongest pull and push, where the force turns
round, and what holds without current.

  coilpull table small.toml                  into small_out/
  coilpull table small.toml -o runs/monday   into that folder; other files in it stay

--approximation NAME adds the column force_NAME_N and pictures of it over the finite elements:
  current_sheets   coils and axially magnetised magnets in air, exact but for recoil permeability; no steel
  mirror_image     the same beside one disc of steel, taken as endless and infinitely permeable

Ctrl-C stops it and keeps the finished rows, the others are marked stopped. tolerance in the file sets the
wanted error bar as a fraction of the largest force: 0.001 when nothing is said; 0.01 is quicker.)";

const char* const field_help =
    R"(Solves one displacement and one set of currents, of the table or not, and prints all that is known.

  coilpull field small.toml                                            the first displacement, no current
  coilpull field small.toml --displacement-mm 2 --current drive=1.5
  coilpull field small.toml --sensitivities                            what moves the force, ranked
  coilpull field two.toml --current drive=4 --current hold=-1          one --current for each circuit)";

const char* const validate_help =
    R"(Computes every published and exact case that comes with the program once more, and writes index.html (one
page with its pictures, no script) and validation.csv: source, their value, ours with its numerical error bar,
the difference and a verdict. Values from memory are listed apart and not judged. Takes a few minutes.

  coilpull validate                        into validation_out/
  coilpull validate -o proof --quick       only the cases that take seconds

Exit code 3: some value differs by more than both error bars, and no reason is known.)";

const char* const judge_help =
    R"(Lays forces from a spreadsheet or a bench over a table: how far they are apart, in N, in % of the peak and in
bars, where they leave the bar, and whether one factor, one shift or one constant explains it.

  coilpull judge small_out/force_table.csv mine.csv      into mine_out/

mine.csv names its columns in the first line: displacement [mm, m, in], current [A, mA], force [N, mN, kN, gf,
kgf, lbf], for example "displacement (mm);current drive (A);force [gf]", and force_uncertainty_N when known (one
standard deviation). Cells are parted by commas, semicolons or tabs; decimal commas need semicolons or tabs;
lines that start with # are skipped. Signs are those of the table. Points outside the table are listed, not
guessed.)";

const char* const bench_help =
    R"(Writes the sheet to take to the bench: resistance and inductance of the coils, the field beside each magnet
before assembly, and the pull at three displacements of the file, currents off and at the strongest, in N and in
gram-force, each with its bar and with how to read it safely.

  coilpull bench small.toml      into small_out/bench_sheet.txt and bench_sheet.csv)";

const char* const calibrate_help =
    R"(Fits what a drawing knows least to what was measured, with uncertainties, and says so when the measurements
cannot tell two of them apart:
  remanence    a factor on the remanence of a magnet
  offset       the true displacement is the one read plus this: a gap that is really wider
  saturation   a factor on the polarization of a steel at every H: another batch

  coilpull calibrate small.toml measured.csv --fit remanence=plunger --fit offset

measured.csv is read as by judge; besides force it may hold B_z at a sensor of the file (B_z_exit_mT) and small-signal
inductance (inductance_drive_mH). force_uncertainty_N and so on state one standard deviation; without, the noise is
told from the residuals. Leave the cell empty where something was not measured.)";

const char* const material_help =
    R"(Steels and magnets that a device file can name, each with its source and how sure it is; and the way to add one.

  coilpull material list
  coilpull material show "team 13 steel"        text and charts: B-H, permeability, points, tail
  coilpull material show n42                    recoil lines and knee
  coilpull material show "team 13 steel" --fit froehlich      a closed law through its points, with residuals
  coilpull material bolt --diameter-mm 8 --pitch-mm 1.25 --across-flats-mm 13      cylinders that stand for it
  coilpull material import bar.csv --source "ring test of 3 May, own sample" --saturation-T 2.1

bar.csv names H (A/m, kA/m, Oe, kOe) and B or J (T, mT, G, kG) in its first line, for example "H [Oe];B [kG]". Points
that fall, repeat or rise less than air are named by their line; --smooth brings them into the shape of a curve by
least squares and tells how far each moved. The file that is written is used by its path: material = "bar.toml".)";

const char* const wires_help =
    R"(Winds the window of a coil full of each wire size in turn and tells turns, ohms, amperes, ampere-turns, peak
force, heat a pulse, time constant, metres and grams for a stated supply. The force depends on ampere-turns alone, so
it is read out of the table that was solved: nothing is solved again, and nothing is told beyond the table's currents.

  coilpull table small.toml
  coilpull wires small.toml --volts 12 --ohms 0.2 --pulse-ms 30)";

const char* const export_help =
    R"(Writes a solved table for circuit and motion simulators, for computing and for firmware. All of it comes from one
smooth function, the magnetic coenergy W'(displacement, current), fitted to the rows within their bars: force and flux
linkage are its two slopes, so a simulation that uses both keeps its energy. How well it fits is told and stands in
each file. Nothing is solved again.

  coilpull table small.toml
  coilpull export small.toml --to npz        NumPy, into small_out/small.npz
  coilpull export small.toml --to xspice     a subcircuit for ngspice, with its two tables
  coilpull export small.toml --to c --fixed-point

npz, mat (MATLAB level 5) and netcdf hold displacement, current, coenergy, force, flux linkage and their slopes.
modelica is a text for CombiTable2Ds, xspice tables for table2d, c a header with look-up. One circuit varies; the
others stand at the smallest current that the table has of them.)";

const char* const offset_help =
    R"(Everything else here is on axis, with one coil or one set of coils on it. This tells what the current does to magnets
that stand beside the axis or tilted: force along z, force to the side, torque, from the field of coil and core without
the magnets. Held against the full solution on the axis it shows how far that can be trusted; what the steel itself
does to a magnet beside the axis is not known, and said so. The way out to that place: offset.csv, .png and .svg.

  coilpull offset small.toml --current drive=2 --displacement-mm 5 --offset-mm 0.3 --tilt-deg 1
  coilpull offset small.toml --current drive=2 --pair-mm 60        two equal coils on either side of a path: forces
                                                                   along it add, forces to the side cancel half way)";

const char* const drawing_help =
    R"(Draws the device for the workshop: a dimensioned section through the axis in natural size, a section of each bobbin
that the file describes, the list of parts with the length of wire to buy, and a bar of 100 mm to check the printout
with. On the smallest sheet from A4 to A0 that holds it; a scale other than 1:1 is stated. Nothing is solved.

  coilpull drawing small.toml        into small_out/drawing.pdf, .svg and .png)";

const char* const compare_help =
    R"(Solves the device of one file once more for every change of a material, on the same meshes, or several devices, and
ranks them: strongest force, force with the current off, work along the stroke, current at which the core is full. A
difference inside the bars is called none; of a material known as a pair of bounds, the range between them is told.

  coilpull compare small.toml --with sleeve="team 13 steel" --with sleeve="hardened bolt steel" --with sleeve=none
  coilpull compare small.toml --with plunger=n35 --with plunger=n52
  coilpull compare small.toml large.toml)";

const char* const variants_help =
    R"(Solves a table for every variant that the file describes: a device file, and which of its keys vary. Each result is
stored as it is finished (variants.db, SQLite); a killed run goes on where it was when it is started again, and what
has not changed since is not solved again. data/variants/tube_pusher.toml explains the file line by line,
data/variants/fast_stage.toml goals of a stroke in time: exit speed, efficiency, temperature.

  coilpull variants night.toml --jobs 2
  coilpull variants night.toml --shard 3/8 -o part3        one of eight machines
  coilpull variants merge part*/variants.db -o all/variants.db && coilpull variants night.toml -o all)";

const char* const remanence_help =
    R"(A core of hard steel, a bolt for example, stays magnetised when the current is off. What exactly it keeps depends on
all that it went through; this brackets it: the curve of every core whose steel states a coercive field is shifted by
plus and by minus that field, and the stroke is solved once more for each, with the current off. The difference in force
is the residual pull, the difference at a sensor its offset.

  coilpull remanence latch.toml        into latch_out/remanence.csv)";

const char* const advise_help =
    R"(Solves the table and tells what follows from it, section by section: how hot the winding gets and when a jam cooks it;
where a sensor switches, whether the coil disturbs it, where else it would work; when to switch on and off; what current
starts the mover from where, what a gap holds; what switch, diode, clamp, fuse, leads and capacitor have to bear. Tables
[supply], [duty], [mechanics] and the switching keys of [sensor.<name>] say how the device is used; data/devices/01 has
all of them. What is not stated is assumed and said so, or left out with the key that would tell it.

  coilpull advise small.toml         words on the screen, advice_*.csv and .png in small_out/)";

const char* const stroke_help =
    R"(Solves the table and lets the device run: speed, current, voltage, force and temperature in time, from W'(z, i) alone,
d(linkage)/dt = v - R i. [supply] feeds it (voltage, current limit, or a capacitor that all stages share), [mechanics] has
mass, friction, slope, load, spring and stops, [coil.<name>] wire its resistance. Switched as statics would, unless told
by place, time or sensor. Exit speed with its band, efficiency, peaks, a line a stage, energy account, cautions.

  coilpull stroke small.toml                           stroke.csv, stroke.png in small_out/
  coilpull stroke small.toml --on-mm 2 --off-mm 14     switched by displacement, as the stage sees it
  coilpull stroke small.toml --stages 3 --pitch-mm 40  a row of equal stages; two of them are solved as a check
  coilpull stroke small.toml --best                    where to switch for the highest speed, and what it gains)";

const char* const report_help =
    R"(Writes report.html: drawing, force curves with values under the pointer and both bands, fields, flux linkage, all that
coilpull advise tells (heat, sensors, switching, holding, ratings), materials with their sources, winding sheet, limits
and cautions, in one file that needs no network. Curves can be read with the arrow keys; the page prints. A variants.csv
in the folder, or in that of --variants, becomes a table to sort.

  coilpull report small.toml       solves the table with --spread first, into small_out/
  coilpull report small_out        of the results that are there; only the pictured fields, sensors and gaps are solved)";

const char* const completion_help =
    R"(The installed package does this by itself. Otherwise, for the shell in use:

  source <(coilpull completion bash)
  coilpull completion zsh > ~/.zfunc/_coilpull      with fpath+=~/.zfunc before compinit
  coilpull completion fish > ~/.config/fish/completions/coilpull.fish)";

const char* const manual_help =
    R"(All the words of the program in one page; --help tells the same verb by verb.

  coilpull manual | man -l -)";

}  // namespace coilpull
