// Package spin pairs turntables that run at a period of their own with a loop:
// after how many captured frames is the carriage home and the product on each
// stand back where it looked the same, and how far off is it.
//
// A stand turns T/P of a turn in a loop of T real seconds, P being its period.
// A product that looks the same k times a turn matches at m/k of a turn; what is
// left, T/P - m/k, is the closing error. It is an exact rational number of
// turns: frame counts are whole, and rates and periods are fractions. Degrees,
// mm, pixels and shares of a frame follow from it.
//
// The search goes through every loop of the range (Find). First and Convergents
// say the same for ranges without end, by continued fractions.
package spin
