package quantity

// This file opens to the tests what lessons have no words for.

// Params tells how many values a formula or function names.
func Params(name string) int { return len(functions[name].Params) }

// WithFreedom gives the inputs of a value these degrees of freedom, as a certificate may state them.
func (q Quantity) WithFreedom(degrees float64) Quantity {
	for i := range q.shares {
		q.shares[i].freedom = degrees
	}
	return q
}
