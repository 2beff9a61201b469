package track

// Peak is a value and the time, in seconds, at which it is reached.
type Peak struct{ Value, Time float64 }

// Extremes are the greatest values over one loop, exact rather than sampled.
// Speed, Acc and Jerk are those of greatest size, sign kept. Acc is +Inf where
// the velocity jumps and Jerk is +Inf where the velocity or the acceleration
// jumps, between pieces, inside a law, or at the seam.
type Extremes struct{ Min, Max, Speed, Acc, Jerk Peak }
