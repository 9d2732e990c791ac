/**
 * Operators, members and their roles, licences, signing in and out; says who the {@link
 * trestle.web.Viewer} of a request is.
 */
package trestle.people;
