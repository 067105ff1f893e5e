// Begins a machine file: only its name is asked, the text is one to start from.
import { useState } from 'react';
import { useSheet } from '../sheet/context.ts';
import { takeFocus } from './focus.ts';

export function NewFile() {
  const sheet = useSheet();
  const [name, setName] = useState<string>();
  if (name === undefined) {
    return (
      <button type="button" onClick={() => setName('')}>
        New machine
      </button>
    );
  }
  return (
    <form
      className="new-file"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() !== '') void sheet.createFile(name.trim());
        setName(undefined);
      }}
    >
      <input
        ref={takeFocus}
        aria-label="Name of the new machine file"
        placeholder="its name, such as press"
        value={name}
        onChange={({ target }) => setName(target.value)}
        onKeyDown={({ key }) => key === 'Escape' && setName(undefined)}
      />
      <button type="submit">begin</button>
    </form>
  );
}
