/** Declares no arrows at all. */
package planted.answering;
