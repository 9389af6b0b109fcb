// Package estimate turns a takeoff into money: materials at the prices of a
// list, labor by task, fees, overhead, profit, tax and the bid, each line with
// the steps by which it was computed; and it sets variations of a job side by
// side.
//
// Money is decimal and exact. Quantities enter rounded to a millionth; every
// line is rounded to the cent, halves away from zero, and every sum is of
// rounded lines, so that a person with a calculator gets the same figures.
//
// Prices in the starting lists are invented. A bid is made with one's own.
package estimate
