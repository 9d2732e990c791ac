/**
 * Rule profiles: what differs from one authority and one operator to another, said once for the
 * operator and once more for an aircraft where it differs. Nothing of it is written in code; the
 * shipped examples are files, to be replaced by the operator's approved documents.
 */
package trestle.profiles;
