// Package atomicfile writes files whole or not at all. A reader finds what was there
// before or everything new, never half of it, whenever the program ends: by an
// error, by a signal that it hears, or by one that it does not.
//
// A file is written beside its place and renamed over it. A folder is one thing
// too: make's files belong together, and a G-code of one plan beside the sheet of
// another moves a rig where nobody expects it. It is built beside its place and
// put there in one step of the system:
//
//   - a folder that is not there is renamed into place, with the folders that
//     lead to it;
//   - one that is there is exchanged for the new one, on Linux. What else is in it
//     comes along as hard links, so that it is the same files, and a file that
//     somebody has open stays theirs. What was in the old folder is then put away,
//     and nothing in it that the new one does not have;
//   - where that cannot be, the files are renamed into the folder one by one (way
//     oneByOne says where and why). Before the first, the folder that they wait in
//     gets a name that can be seen, "unfinished-...part"; the last step takes it
//     away. A kill between leaves some of the old files or some of the new ones,
//     never of both, and the next run to the same place begins by finishing it.
//
// What is being written is held (package hold). What is left of a run that was
// killed is not, and the next run to the same place sweeps it away.
//
// A file that this run has read is never written over: see inputs.go.
package atomicfile
