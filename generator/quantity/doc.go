// Package quantity is the ground floor of trundle: numbers with units and
// uncertainty, the expressions that a coach writes with them, and the formulas
// of the trade.
//
// Words: a Unit is a product of powers of named units (mm, cm/s, m^2); a
// Dimension says what kind of thing is measured; a Quantity is a number in a
// Unit with the share that each measured input has in its uncertainty; an Expr
// is the tree of a calculation as written; a Formula is a calculation with a name.
//
// The package reads no files, keeps no state and imports nothing else of this
// module. Positions are byte offsets; turning them into lines and columns is
// the caller's business. Correlated inputs, complex numbers and temperatures
// are not covered.
package quantity
