// Package align finds how one picture lies on another, and with that where a take went: shift,
// scale and turn of each frame, to a small part of a pixel, with the uncertainty of each.
//
// Two pictures are first laid on each other roughly, by the correlation of their phases
// (Kuglin and Hines, Proc. IEEE Conf. Cybernetics and Society 163, 1975), where need be after
// scale and turn have been taken out by the same of their spectra in logarithmic polar
// coordinates (Reddy and Chatterji, IEEE Trans. Image Process. 5:1266, 1996, DOI
// 10.1109/83.506761). Then blocks with something to hold on to (Shi and Tomasi, CVPR 1994, DOI
// 10.1109/CVPR.1994.323794) are followed each by itself to the least squares of their difference
// (Lucas and Kanade, IJCAI 1981; turned about as by Baker and Matthews, Int. J. Comput. Vision
// 56:221, 2004, DOI 10.1023/B:VISI.0000011205.11775.fd), brightness and contrast of each taken
// out, so that a change of light moves nothing. At last the blocks are asked for the one shift,
// scale and turn on which most agree (Fischler and Bolles, Comm. ACM 24:381, 1981, DOI
// 10.1145/358669.358692, all pairs instead of some by chance); those that do not, a hand or
// what flows, have no weight.
//
// What is found is the motion of whatever most blocks lie on. A scene that is deep has no one
// motion where the camera moves sideways: near blocks go further than far ones, and the
// uncertainty has that in it.
package align
