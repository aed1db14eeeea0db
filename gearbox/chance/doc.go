// Package chance has the arithmetic of what isn't known exactly: points that fill a space of unknowns evenly, what a sample of answers says of its quantiles and of the chance of an
// event, each with how sure that is, and which unknown moves the answer most.
//
// It knows no gearboxes. A point is a row of numbers between 0 and 1, one for each unknown, which the caller turns into values by the quantile function of that unknown.
// Points come in several independent scramblings of one sequence (Replicates); what differs between the scramblings says how sure the whole is, where the formulas for plain random numbers
// don't hold.
package chance
