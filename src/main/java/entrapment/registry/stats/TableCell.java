package entrapment.registry.stats;

/**
 * A place in a table.
 *
 * @param row from 1
 * @param column from 1
 */
public record TableCell(int row, int column) {}
