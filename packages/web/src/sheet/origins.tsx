// The key to the underlines.
const kinds = ['given', 'measured', 'catalogue', 'assumed', 'planned', 'derived'] as const;

export const Origins = () => (
  <p className="key">
    <span>a number is</span>
    {kinds.map((kind) => (
      <span key={kind} className={`o ${kind}`}>
        {kind}
      </span>
    ))}
  </p>
);
