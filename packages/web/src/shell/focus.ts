// Gives the keyboard to what has just been opened by the keyboard or a click.
export const takeFocus = (element: HTMLElement | null): void => element?.focus();
